#include "ui/midjob/ShopDialog.h"

#include <algorithm>
#include <utility>

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
constexpr int waitMilliseconds = 200; // after the last key, before it is worked out again
constexpr int wide = 460;
} // namespace

ShopDialog::ShopDialog(const QString& title, DocumentSession& session, QWidget* parent)
    : QDialog(parent)
    , m_session(session)
    , m_column(new QVBoxLayout(this))
    , m_form(new QFormLayout)
    , m_why(new QLineEdit(this))
    , m_unlock(new QCheckBox(tr("Unlock it, and go on"), this))
    , m_outcome(new FractionLabel({}, this))
    , m_ways(new QVBoxLayout)
    , m_asides(new QVBoxLayout)
    , m_take(nullptr)
    , m_workout(this)
    , m_later(this) {
    setObjectName("shopDialog");
    setWindowTitle(title);
    setAttribute(Qt::WA_DeleteOnClose);
    setMinimumWidth(wide);
    m_column->setContentsMargins(16, 14, 16, 14);
    m_column->setSpacing(10);
    auto* heading = new QLabel(title, this);
    heading->setFont(sized(font(), TextSize::Lead, QFont::DemiBold));
    m_column->addWidget(heading);
    m_column->addLayout(m_form);
    m_form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    m_form->setHorizontalSpacing(12);
    m_why->setObjectName("why");
    m_why->setPlaceholderText(tr("kept in the log of the job"));
    m_outcome->setObjectName("outcome");
    m_outcome->setWrapped(true);
    m_column->addWidget(m_outcome);
    m_column->addLayout(m_ways);
    m_unlock->setObjectName("unlock");
    m_unlock->hide();
    m_column->addWidget(m_unlock);
    m_column->addLayout(m_asides);
    connect(m_unlock, &QCheckBox::toggled, this, &ShopDialog::look);
    m_column->addStretch(1);
    auto* buttons = new QDialogButtonBox(this);
    m_take = buttons->addButton(tr("Take it"), QDialogButtonBox::AcceptRole);
    m_take->setObjectName("takeButton");
    m_take->setDefault(true);
    buttons->addButton(tr("Cancel"), QDialogButtonBox::RejectRole);
    m_column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &ShopDialog::take);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(this, &QDialog::rejected, this, [this] {
        m_isTaken = false;
        m_workout.drop();
    });
    m_wait.setSingleShot(true);
    connect(&m_wait, &QTimer::timeout, this, &ShopDialog::look);
}

void ShopDialog::say(const QString& text) {
    auto* label = new FractionLabel(text, this);
    label->setWrapped(true);
    label->setQuiet(true);
    m_column->insertWidget(m_column->indexOf(m_outcome) - 1, label);
}

void ShopDialog::sayLater(Later later) {
    m_later.ask([this, later = std::move(later), document = m_session.document()] {
        return [this, sentences = later(document)] {
            for (const QString& sentence : sentences) {
                auto* label = new FractionLabel(sentence, this);
                label->setWrapped(true);
                label->setQuiet(true);
                m_asides->addWidget(label);
                label->show(); // at once, so that fit() counts it
            }
            fit();
        };
    });
}

LengthEdit* ShopDialog::length(const QString& name, const QString& label, Length value) {
    auto* edit = new LengthEdit(this);
    edit->setObjectName(name);
    edit->field()->setAccessibleName(label);
    edit->setStyleOfLength(m_session.lengthStyle());
    edit->keepReadingRoom();
    edit->setValue(value);
    auto* named = new QLabel(label, this);
    named->setBuddy(edit->field());
    // Beside the field, not beside field and reading.
    named->setFixedHeight(edit->field()->sizeHint().height());
    m_form->addRow(named, edit);
    connect(edit, &LengthEdit::edited, this, &ShopDialog::changed);
    connect(edit, &LengthEdit::committed, this, &ShopDialog::changed);
    connect(edit, &LengthEdit::acceptableChanged, this, &ShopDialog::changed);
    m_lengths.push_back(edit);
    return edit;
}

QComboBox* ShopDialog::choice(const QString& name, const QString& label, const QStringList& texts) {
    auto* box = new QComboBox(this);
    box->setObjectName(name);
    box->setAccessibleName(label);
    box->addItems(texts);
    m_form->addRow(label, box);
    connect(box, &QComboBox::currentIndexChanged, this, &ShopDialog::changed);
    return box;
}

QCheckBox* ShopDialog::tick(const QString& name, const QString& text) {
    auto* box = new QCheckBox(text, this);
    box->setObjectName(name);
    m_form->addRow(QString(), box);
    connect(box, &QCheckBox::toggled, this, &ShopDialog::changed);
    return box;
}

void ShopDialog::leaveOutWhy() { m_why->hide(); }

void ShopDialog::begin(Make make, const QString& takeText) {
    m_make = std::move(make);
    if (!m_why->isHidden()) {
        m_form->addRow(tr("Why"), m_why);
    }
    m_take->setText(takeText);
    adjustSize();
    look();
    open();
    QWidget* first = m_startAt;
    for (int row = 0; first == nullptr && row < m_form->rowCount(); ++row) {
        const QLayoutItem* item = m_form->itemAt(row, QFormLayout::FieldRole);
        first = item != nullptr ? item->widget() : nullptr;
    }
    if (auto* edit = qobject_cast<LengthEdit*>(first)) {
        edit->field()->setFocus();
        edit->field()->selectAll();
    } else if (first != nullptr) {
        first->setFocus();
    }
}

void ShopDialog::changed() {
    m_isTaken = false; // something else than what was taken
    m_wait.start(waitMilliseconds);
}

ShopDialog::Said ShopDialog::said() const {
    return {m_why->text().toStdString(), m_unlock->isChecked()};
}

bool ShopDialog::isReadable() const {
    return std::all_of(m_lengths.begin(), m_lengths.end(),
                       [](const LengthEdit* edit) { return edit->isAcceptable(); });
}

void ShopDialog::look() {
    m_wait.stop();
    m_take->setEnabled(false);
    if (!isReadable()) { // the field says why; the last good value is not what is meant
        m_isTaken = false;
        m_workout.drop();
        m_outcome->setSign(Sign::Cross);
        m_outcome->setText(tr("Nothing is taken while a field cannot be read."));
        clearWays();
        fit();
        return;
    }
    Said unlocking = said();
    unlocking.unlock = true;
    const Work work = m_make(said());
    const Work unlocked = m_make(unlocking);
    m_workout.ask([this, work, unlocked, document = m_session.document(),
                   revision = m_session.revision()]() -> Workout::Tell {
        Answer answer{work(document)};
        answer.isLocked = !answer.made && unlocked(document).ok();
        return [this, answer = std::move(answer), revision] {
            if (revision != m_session.revision()) {
                look(); // the job is another one by now
            } else {
                show(answer);
            }
        };
    });
    if (m_workout.isWorking()) {
        m_outcome->setSign(Sign::None);
        m_outcome->setText(tr("Working out what it comes to…"));
    }
}

void ShopDialog::show(const Answer& answer) {
    const Result<Made>& made = answer.made;
    if (std::exchange(m_isTaken, false) && made) {
        const Made done = made.value(); // the answer goes with the dialog
        accept();
        emit taken(done.edit, done.sentence, done.remedies);
        return;
    }
    // Ticked it stays, so that it can be taken back.
    m_unlock->setVisible(m_unlock->isChecked() || answer.isLocked);
    m_take->setEnabled(made.ok());
    m_outcome->setSign(!made ? Sign::Cross : made.value().loses ? Sign::Triangle : Sign::None);
    m_outcome->setText(made ? made.value().sentence : words(describe(made.error())));
    clearWays();
    if (made) {
        for (const QString& remedy : made.value().remedies) {
            auto* label = new FractionLabel(tr("Way out: %1").arg(remedy), this);
            label->setWrapped(true);
            m_ways->addWidget(label);
            label->show(); // at once, so that fit() counts it
        }
    }
    fit();
}

void ShopDialog::clearWays() {
    while (QLayoutItem* item = m_ways->takeAt(0)) {
        delete item->widget();
        delete item;
    }
}

/// It only grows: fields must not move under the hand that types.
void ShopDialog::fit() {
    m_column->activate();
    const int needed = hasHeightForWidth() ? heightForWidth(width()) : sizeHint().height();
    resize(std::max(width(), minimumSizeHint().width()), std::max(height(), needed));
}

void ShopDialog::take() {
    m_isTaken = true;
    look();
}

} // namespace stavewright::ui
