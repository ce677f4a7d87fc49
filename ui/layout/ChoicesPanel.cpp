#include "ui/layout/ChoicesPanel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QListView>
#include <QPainter>
#include <QPushButton>
#include <QScopedValueRollback>
#include <QStackedWidget>
#include <QStandardItemModel>
#include <QTreeView>
#include <QVBoxLayout>

#include <algorithm>

#include "core/units/QuantityText.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/FractionDelegate.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr int rowsShown = 5;
constexpr int rowHigh = 28;

QStandardItem* cell(const QString& text, Qt::Alignment alignment = Qt::AlignLeft) {
    auto* item = new QStandardItem(text);
    item->setEditable(false);
    item->setTextAlignment(alignment | Qt::AlignVCenter);
    return item;
}

} // namespace

ChoicesPanel::ChoicesPanel(DocumentSession& session, ChoicesController& controller, QWidget* parent)
    : QFrame(parent)
    , m_session(session)
    , m_controller(controller)
    , m_title(new FractionLabel({}, this))
    , m_words(new FractionLabel({}, this))
    , m_take(new QPushButton(this))
    , m_stop(new QPushButton(tr("Stop"), this))
    , m_close(new QPushButton(tr("Close"), this))
    , m_lists(new QStackedWidget(this))
    , m_plans(new QTreeView(m_lists))
    , m_planRows(new QStandardItemModel(this))
    , m_demands(new QListView(m_lists))
    , m_demandRows(new QStandardItemModel(this)) {
    setObjectName("choicesPanel");
    m_take->setObjectName("takeChoiceButton");
    m_stop->setObjectName("stopChoicesButton");
    m_close->setObjectName("closeChoicesButton");
    m_stop->setToolTip(tr("End the search now; what was found so far is shown"));
    m_close->setToolTip(tr("Put this list away (Esc); the job stays as it is"));
    m_title->setFont(sized(font(), TextSize::Body, QFont::DemiBold));
    m_words->setQuiet(true);
    m_words->setWrapped(true);

    m_plans->setObjectName("plansSideBySide");
    m_plans->setAccessibleName(tr("Plans side by side"));
    m_plans->setModel(m_planRows);
    m_plans->setItemDelegate(new FractionDelegate(m_plans));
    m_plans->setRootIsDecorated(false);
    m_plans->setAllColumnsShowFocus(true);
    m_plans->setFrameShape(QFrame::NoFrame);
    m_demands->setObjectName("demandCosts");
    m_demands->setAccessibleName(tr("What each requirement costs"));
    m_demands->setModel(m_demandRows);
    m_demands->setItemDelegate(new FractionDelegate(m_demands));
    m_demands->setFrameShape(QFrame::NoFrame);
    m_demands->setResizeMode(QListView::Adjust);
    m_demands->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_lists->addWidget(m_plans);
    m_lists->addWidget(m_demands);
    m_lists->setFixedHeight(rowHigh * (rowsShown + 1));
    m_plans->installEventFilter(this);
    m_demands->installEventFilter(this);

    auto* top = new QHBoxLayout;
    top->setContentsMargins(12, 6, 12, 6);
    top->setSpacing(8);
    top->addWidget(m_title);
    top->addWidget(m_words, 1);
    top->addWidget(m_take);
    top->addWidget(m_stop);
    top->addWidget(m_close);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 1, 0, 0);
    layout->setSpacing(0);
    layout->addLayout(top);
    layout->addWidget(m_lists);

    connect(m_take, &QPushButton::clicked, this, &ChoicesPanel::takeCurrent);
    connect(m_stop, &QPushButton::clicked, &m_controller, &ChoicesController::stop);
    connect(m_close, &QPushButton::clicked, &m_controller, &ChoicesController::close);
    connect(m_plans->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& current) {
                if (!m_filling && current.isValid()) {
                    m_controller.look(static_cast<std::size_t>(current.row()));
                }
            });
    // The current one again, when it was put away meanwhile.
    connect(m_plans, &QTreeView::clicked, this, [this](const QModelIndex& row) {
        m_controller.look(static_cast<std::size_t>(row.row()));
    });
    connect(&m_controller, &ChoicesController::stateChanged, this, &ChoicesPanel::refresh);
    connect(&m_controller, &ChoicesController::progressed, this, &ChoicesPanel::tellProgress);
    refresh();
}

QString ChoicesPanel::sentence() const { return m_words->text(); }

QString ChoicesPanel::lumber(BoardFeet amount) const {
    return words(lumberText(amount, m_session.document().info.units, LumberDetail::Close));
}

void ChoicesPanel::refresh() {
    using Question = ChoicesController::Question;
    const Question question = m_controller.question();
    const bool isHere = question == Question::Plans || question == Question::Demands;
    const bool wasHidden = isHidden();
    setVisible(isHere);
    if (!isHere) {
        return;
    }
    const bool plans = question == Question::Plans;
    m_title->setText(plans ? tr("Plans side by side") : tr("What each requirement costs"));
    m_lists->setCurrentWidget(plans ? static_cast<QWidget*>(m_plans) : m_demands);
    m_take->setText(plans ? tr("Take this plan") : tr("Make this change"));
    m_take->setToolTip(plans
                           ? tr("The plan that is looked at becomes the job's, as one step (Enter)")
                           : tr("Ease this requirement in the job, as one step (Enter)"));
    {
        const QScopedValueRollback guard(m_filling, true);
        plans ? fillPlans() : fillDemands();
    }
    const bool running = m_controller.isRunning();
    m_stop->setVisible(running);
    const int rows = plans ? m_planRows->rowCount() : m_demandRows->rowCount();
    m_take->setVisible(!running);
    m_take->setEnabled(rows > 0);
    tellProgress();
    if ((wasHidden || !running) && isVisible() && rows > 0) {
        m_lists->currentWidget()->setFocus();
    }
}

void ChoicesPanel::fillPlans() {
    const int row = m_plans->currentIndex().row();
    m_planRows->clear();
    m_planRows->setHorizontalHeaderLabels(
        {tr("Plan"), tr("Cost"), tr("Lumber"), tr("Knots on show"), tr("Set-ups")});
    QHeaderView& header = *m_plans->header();
    header.setStretchLastSection(false);
    for (int column = 0; column < m_planRows->columnCount(); ++column) {
        header.setSectionResizeMode(column, column == 0 ? QHeaderView::Stretch
                                                        : QHeaderView::ResizeToContents);
        m_planRows->horizontalHeaderItem(column)->setTextAlignment(
            (column == 0 ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    }
    const std::optional<choices::Alternatives>& all = m_controller.plans();
    if (!all) {
        return;
    }
    const std::string& currency = m_session.document().info.currency;
    const std::optional<std::size_t> taken = m_controller.taken();
    for (std::size_t i = 0; i < all->plans.size(); ++i) {
        const choices::Alternative& alternative = all->plans[i];
        const PlanFigures& figures = alternative.figures;
        const SetUps& setUps = figures.setUps;
        QStandardItem* name = cell(words(titleOf(alternative)));
        if (taken == i) {
            name->setText(tr("%1 (the job's)").arg(name->text()));
            name->setData(static_cast<int>(Sign::Tick), signRole);
        }
        QStandardItem* settings = cell(QString::number(setUps.total()), Qt::AlignRight);
        settings->setToolTip(
            tr("%1 at the rip fence, %2 at the rough rip fence, %3 at the stop for "
               "second crosscuts. A setting "
               "that comes back counts once.")
                .arg(setUps.ripWidths)
                .arg(setUps.roughRipWidths)
                .arg(setUps.stopLengths));
        if (!alternative.against.empty()) {
            name->setData(words(alternative.against), secondLineRole);
            name->setToolTip(words(alternative.against));
        }
        m_planRows->appendRow(
            {name, cell(words(formatMoney(figures.cost, currency)), Qt::AlignRight),
             cell(lumber(figures.lumber), Qt::AlignRight),
             cell(QString::number(figures.knotsOnShow), Qt::AlignRight), settings});
    }
    const int chosen = row >= 0 ? row : taken ? static_cast<int>(*taken) : 0;
    m_plans->setCurrentIndex(m_planRows->index(std::min(chosen, m_planRows->rowCount() - 1), 0));
}

void ChoicesPanel::fillDemands() {
    m_demandRows->clear();
    const std::optional<choices::DemandCosts>& all = m_controller.demands();
    if (!all) {
        return;
    }
    for (const choices::DemandCost& cost : all->costs) {
        auto* item = cell(words(cost.sentence));
        if (cost.isWithinNoise) {
            item->setData(static_cast<int>(Sign::Triangle), signRole);
            item->setData(words(cost.doubt), secondLineRole);
        }
        item->setToolTip(
            words(cost.doubt.empty() ? cost.sentence : cost.sentence + " " + cost.doubt));
        m_demandRows->appendRow(item);
    }
    m_demands->setCurrentIndex(m_demandRows->index(0, 0));
}

void ChoicesPanel::tellProgress() {
    const bool plans = m_controller.question() == ChoicesController::Question::Plans;
    if (m_controller.isRunning()) {
        const ProgressReport& progress = m_controller.progress();
        m_words->setText(progress.stage.empty()
                             ? tr("Planning, %1 s").arg(static_cast<int>(progress.seconds))
                             : tr("Planning: %1; %2 s")
                                   .arg(words(progress.stage),
                                        QString::number(static_cast<int>(progress.seconds))));
        return;
    }
    if (plans && m_controller.plans()) {
        const auto& found = *m_controller.plans();
        m_words->setText(found.stoppedEarly ? tr("Stopped before all were looked for.")
                         : found.plans.size() == 1
                             ? tr("No other plan found is better at anything.")
                             : tr("Move through the list to look at a plan on the boards; Enter "
                                  "takes it."));
    } else if (!plans && m_controller.demands()) {
        const choices::DemandCosts& costs = *m_controller.demands();
        const QString tried =
            counted(static_cast<qint64>(costs.tried), tr("requirement"), tr("requirements"));
        m_words->setText(
            (costs.costs.empty()
                 ? tr("%1 eased, each alone, and planned again: none saves anything.")
                 : tr("%1 eased, each alone, and planned again. Two searches of one "
                      "job differ by %2."))
                .arg(tried, words(formatMoney(costs.noise, m_session.document().info.currency))) +
            (costs.stoppedEarly() ? tr(" Stopped before all were tried.") : QString()));
    } else {
        m_words->setText({});
    }
}

void ChoicesPanel::takeCurrent() {
    if (m_controller.isRunning()) {
        return;
    }
    if (m_controller.question() == ChoicesController::Question::Plans) {
        const QModelIndex current = m_plans->currentIndex();
        if (current.isValid()) {
            m_controller.take(static_cast<std::size_t>(current.row()));
        }
    } else if (const QModelIndex current = m_demands->currentIndex(); current.isValid()) {
        m_controller.ease(static_cast<std::size_t>(current.row()));
    }
}

bool ChoicesPanel::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
            takeCurrent();
            return true;
        }
        if (key->key() == Qt::Key_Escape) {
            m_controller.close();
            return true;
        }
    }
    return QFrame::eventFilter(watched, event);
}

void ChoicesPanel::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        m_controller.close();
        return;
    }
    QFrame::keyPressEvent(event);
}

void ChoicesPanel::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& c = coloursOf(palette());
    painter.fillRect(rect(), c.panel);
    painter.setPen(c.hairline);
    painter.drawLine(0, 0, width(), 0);
}

} // namespace stavewright::ui
