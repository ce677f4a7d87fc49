#include "ui/widgets/LengthEdit.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QVBoxLayout>

#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

UnitSystem otherUnit(UnitSystem units) {
    return units == UnitSystem::Inches ? UnitSystem::Millimetres : UnitSystem::Inches;
}

LengthStyle withUnit(LengthStyle style) {
    style.withUnit = true;
    return style;
}

} // namespace

LengthEdit::LengthEdit(QWidget* parent)
    : QWidget(parent)
    , m_field(new QLineEdit(this))
    , m_reading(new FractionLabel({}, this)) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(2);
    layout->addWidget(m_field);
    layout->addWidget(m_reading);
    m_reading->setWrapped(true);
    m_reading->setQuiet(true);
    m_reading->setFont(sized(font(), TextSize::Caption));
    m_reading->hide();
    m_field->installEventFilter(this);
    setFocusProxy(m_field);
    connect(m_field, &QLineEdit::textEdited, this, [this] { readText(); });
    connect(m_field, &QLineEdit::editingFinished, this, [this] { commit(); });
    showValue();
}

void LengthEdit::setValue(Length value) {
    if (m_field->hasFocus() && value == m_value) {
        return; // do not rewrite what is being typed
    }
    m_value = value;
    m_atFocus = value;
    setAcceptable(true);
    m_reading->hide();
    showValue();
}

void LengthEdit::setStyleOfLength(const LengthStyle& style) {
    m_style = style;
    if (m_acceptable) {
        showValue();
    }
}

void LengthEdit::setRange(std::optional<Length> least, std::optional<Length> most) {
    m_least = least;
    m_most = most;
}

void LengthEdit::keepReadingRoom() {
    QSizePolicy policy = m_reading->sizePolicy();
    policy.setRetainSizeWhenHidden(true);
    m_reading->setSizePolicy(policy);
}

void LengthEdit::showValue() { m_field->setText(words(formatLength(m_value, m_style))); }

void LengthEdit::setAcceptable(bool isAcceptable) {
    if (m_acceptable != isAcceptable) {
        m_acceptable = isAcceptable;
        emit acceptableChanged(isAcceptable);
    }
}

void LengthEdit::readText() {
    const Result<Length> read = parseLength(m_field->text().toStdString(), m_style.units);
    QString sentence;
    if (!read) {
        sentence = words(read.error().message);
    } else if (m_least && read.value() < *m_least) {
        sentence =
            tr("At least %1 is needed.").arg(words(formatLength(*m_least, withUnit(m_style))));
    } else if (m_most && *m_most < read.value()) {
        sentence =
            tr("At most %1 is allowed.").arg(words(formatLength(*m_most, withUnit(m_style))));
    }
    setAcceptable(sentence.isEmpty());
    m_reading->setSign(m_acceptable ? Sign::None : Sign::Cross);
    m_reading->setQuiet(m_acceptable);
    m_reading->show();
    if (!m_acceptable) {
        m_reading->setText(sentence);
        return;
    }
    LengthStyle second = withUnit(m_style);
    second.units = otherUnit(m_style.units);
    m_reading->setText(tr("%1 = %2").arg(words(formatLength(read.value(), withUnit(m_style))),
                                         words(formatLength(read.value(), second))));
    if (read.value() != m_value) {
        m_value = read.value();
        emit edited(m_value);
    }
}

void LengthEdit::step(int steps) {
    const Length one = m_style.units == UnitSystem::Inches ? Length::inches(1, m_style.denominator)
                                                           : Length::millimetres(1);
    Length next = m_value + one * steps;
    if (m_least && next < *m_least) {
        next = *m_least;
    }
    if (m_most && *m_most < next) {
        next = *m_most;
    }
    m_field->setText(words(formatLength(next, m_style)));
    readText();
}

void LengthEdit::commit() {
    if (!m_acceptable) {
        return; // the text stays, with the words that say why
    }
    m_reading->hide();
    const bool changed = m_value != m_atFocus;
    m_atFocus = m_value;
    showValue();
    if (changed) {
        emit committed(m_value);
    }
}

bool LengthEdit::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_field && event->type() == QEvent::FocusIn && m_acceptable) {
        m_atFocus = m_value;
    }
    if (watched != m_field || event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    const auto* key = static_cast<QKeyEvent*>(event); // the type was asked above
    const int factor = key->modifiers().testFlag(Qt::ShiftModifier) ? 10 : 1;
    switch (key->key()) {
    case Qt::Key_Up:
        step(factor);
        return true;
    case Qt::Key_Down:
        step(-factor);
        return true;
    case Qt::Key_Escape: {
        if (m_acceptable && m_value == m_atFocus) {
            return false;
        }
        const bool changed = m_value != m_atFocus;
        m_value = m_atFocus;
        setAcceptable(true);
        m_reading->hide();
        showValue();
        if (changed) {
            emit edited(m_value);
        }
        return true;
    }
    default:
        return false;
    }
}

} // namespace stavewright::ui
