#include "ui/layout/RestPanel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>

#include "core/midjob/Moves.h"
#include "core/units/QuantityText.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/FractionDelegate.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr int mostMovesShown = 4; ///< the others by scrolling
constexpr int rowHeight = 26;
constexpr int totalsWide = 400; ///< beside the moves; the drawing above keeps its room

} // namespace

RestPanel::RestPanel(DocumentSession& session, PlanController& controller, QWidget* parent)
    : QFrame(parent)
    , m_session(session)
    , m_controller(controller)
    , m_title(new QLabel(this))
    , m_words(new FractionLabel({}, this))
    , m_table(new QTableWidget(2, 6, this))
    , m_moves(new QTableWidget(0, 3, this))
    , m_look(new QPushButton(this))
    , m_take(new QPushButton(tr("Take it"), this))
    , m_leave(new QPushButton(tr("Leave it"), this)) {
    setObjectName("restPanel");
    m_words->setObjectName("restWords");
    m_words->setWrapped(true);
    m_look->setObjectName("lookAtRestButton");
    m_take->setObjectName("takeRestButton");
    m_leave->setObjectName("leaveRestButton");
    m_look->setToolTip(tr("Which of the two stands on the boards above"));
    m_take->setToolTip(tr("The plan after becomes the job's, as one step (Enter)"));
    m_leave->setToolTip(tr("The job stays as it is (Esc)"));
    m_title->setFont(sized(font(), TextSize::Body, QFont::DemiBold));
    m_table->setObjectName("restTable");
    m_table->setAccessibleName(tr("Before and after"));
    m_table->setHorizontalHeaderLabels(
        {tr("Plan"), tr("Placed"), tr("Boards"), tr("Lumber"), tr("Fills"), tr("Cost")});
    m_table->verticalHeader()->hide();
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setSelectionMode(QAbstractItemView::NoSelection);
    m_table->setFocusPolicy(Qt::NoFocus);
    m_table->setShowGrid(false);
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    for (int column = 0; column < m_table->columnCount(); ++column) {
        m_table->horizontalHeader()->setSectionResizeMode(
            column, column == 0 ? QHeaderView::Stretch : QHeaderView::ResizeToContents);
        m_table->horizontalHeaderItem(column)->setTextAlignment(
            (column == 0 ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    }

    m_moves->setObjectName("restMoves");
    m_moves->setAccessibleName(tr("What moves, from where to where"));
    m_moves->setHorizontalHeaderLabels({tr("Moves"), tr("Before"), tr("After")});
    m_moves->verticalHeader()->hide();
    m_moves->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_moves->setSelectionMode(QAbstractItemView::NoSelection);
    m_moves->setTabKeyNavigation(false);
    m_moves->setShowGrid(false);
    m_moves->setFrameShape(QFrame::NoFrame);
    m_moves->setItemDelegate(new FractionDelegate(m_moves));
    m_moves->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_moves->horizontalHeader()->setSectionResizeMode(0, QHeaderView::ResizeToContents);
    m_moves->horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
    m_moves->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
    for (int column = 0; column < m_moves->columnCount(); ++column) {
        m_moves->horizontalHeaderItem(column)->setTextAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    }

    auto* top = new QHBoxLayout;
    top->setContentsMargins(12, 6, 12, 6);
    top->setSpacing(8);
    top->addWidget(m_title);
    top->addStretch(1);
    top->addWidget(m_look);
    top->addWidget(m_take);
    top->addWidget(m_leave);
    auto* wordsRow = new QHBoxLayout;
    wordsRow->setContentsMargins(12, 0, 12, 6);
    wordsRow->addWidget(m_words, 1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 1, 0, 4);
    layout->setSpacing(0);
    layout->addLayout(top);
    layout->addLayout(wordsRow);
    auto* tables = new QHBoxLayout;
    tables->setSpacing(12);
    tables->addWidget(m_table, 0, Qt::AlignTop);
    tables->addWidget(m_moves, 1);
    layout->addLayout(tables);
    for (QTableWidget* table : {m_table, m_moves}) {
        table->verticalHeader()->setDefaultSectionSize(rowHeight);
    }
    // The staves of a panel may come from many boards: that row takes the lines it needs.
    connect(m_moves->horizontalHeader(), &QHeaderView::sectionResized, m_moves,
            &QTableWidget::resizeRowsToContents, Qt::QueuedConnection);

    connect(m_look, &QPushButton::clicked, this,
            [this] { m_controller.lookAtRest(!m_controller.isLookingAtRest()); });
    connect(m_take, &QPushButton::clicked, &m_controller, &PlanController::takeRest);
    connect(m_leave, &QPushButton::clicked, &m_controller, &PlanController::dropRest);
    connect(&m_controller, &PlanController::restChanged, this, &RestPanel::refresh);
    refresh();
}

QString RestPanel::sentence() const { return m_words->text(); }

void RestPanel::refresh() {
    const std::optional<PlanController::Rest>& rest = m_controller.rest();
    const bool wasHidden = isHidden();
    setVisible(rest.has_value());
    if (!rest) {
        return;
    }
    const Document& document = m_session.document();
    m_title->setText(PlanController::titleOf(rest->mode));
    m_words->setText(rest->sentence);
    m_look->setText(m_controller.isLookingAtRest() ? tr("Show before") : tr("Show after"));
    int row = 0;
    for (const Plan* plan : {&rest->before, &rest->after}) {
        const PlanTotals& t = plan->totals;
        const QString name = row == 0 ? tr("Before") : tr("After");
        const bool isShown = (row == 1) == m_controller.isLookingAtRest();
        const QStringList cells = {isShown ? tr("%1 (shown)").arg(name) : name,
                                   tr("%1 of %2").arg(t.placed).arg(t.demanded),
                                   QString::number(t.boardsUsed),
                                   words(lumberText(t.lumberUsed, document.info.units)),
                                   QString::number(t.fills),
                                   words(formatMoney(t.cost, document.info.currency))};
        for (int column = 0; column < cells.size(); ++column) {
            auto* item = new QTableWidgetItem(cells[column]);
            item->setTextAlignment((column == 0 ? Qt::AlignLeft : Qt::AlignRight) |
                                   Qt::AlignVCenter);
            m_table->setItem(row, column, item);
        }
        ++row;
    }
    m_table->setFixedHeight(m_table->horizontalHeader()->sizeHint().height() +
                            2 * m_table->rowHeight(0) + 2);
    fillMoves();
    if (wasHidden && m_controller.isLookingAtRest()) { // else the hand is at work on the rack
        m_take->setFocus();
    }
}

void RestPanel::fillMoves() {
    const PlanController::Rest& rest = *m_controller.rest();
    const Document& document = m_session.document();
    const std::vector<midjob::Move> moves = midjob::movesBetween(document, rest.before, rest.after);
    m_moves->setRowCount(static_cast<int>(moves.size()));
    for (int row = 0; row < m_moves->rowCount(); ++row) {
        const midjob::Move& move = moves[static_cast<std::size_t>(row)];
        const QStringList cells = {words(labelOfAll(document, move.purpose)), words(move.before),
                                   words(move.after)};
        for (int column = 0; column < cells.size(); ++column) {
            auto* item = new QTableWidgetItem(cells[column]);
            item->setToolTip(cells[column]);
            m_moves->setItem(row, column, item);
        }
    }
    m_moves->resizeRowsToContents();
    m_moves->setVisible(!moves.empty());
    m_table->setMinimumWidth(totalsWide);
    m_table->setMaximumWidth(moves.empty() ? QWIDGETSIZE_MAX : totalsWide);
    if (!moves.empty()) { // the drawing keeps most of the window
        const int shown = std::min(m_moves->rowCount(), mostMovesShown);
        m_moves->setFixedHeight(m_moves->horizontalHeader()->sizeHint().height() +
                                shown * rowHeight + 2);
    }
}

void RestPanel::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        m_controller.dropRest();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        m_controller.takeRest();
        return;
    }
    QFrame::keyPressEvent(event);
}

void RestPanel::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& c = coloursOf(palette());
    painter.fillRect(rect(), c.panel);
    painter.setPen(c.hairline);
    painter.drawLine(0, 0, width(), 0);
}

} // namespace stavewright::ui
