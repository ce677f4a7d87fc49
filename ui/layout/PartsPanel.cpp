#include "ui/layout/PartsPanel.h"

#include <QHeaderView>
#include <QListView>
#include <QScopedValueRollback>
#include <QScrollBar>
#include <QSplitter>
#include <QStandardItemModel>
#include <QTreeView>
#include <QVBoxLayout>

#include <algorithm>

#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionDelegate.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

namespace {

constexpr int partRole = Qt::UserRole + 10;
constexpr int blankRole = Qt::UserRole + 11;
constexpr int boardRole = Qt::UserRole + 12;

QStandardItem* plainItem() {
    auto* item = new QStandardItem;
    item->setEditable(false);
    return item;
}

void tell(QStandardItem& name, QStandardItem& count, const PartRow& row) {
    name.setText(row.name);
    name.setToolTip(row.tip);
    count.setText(row.count);
    count.setData(static_cast<int>(row.sign), signRole);
    count.setToolTip(row.countTip);
}

void tell(QStandardItem& mark, QStandardItem& where, const BlankRow& row) {
    mark.setText(row.name);
    mark.setData(QVariant::fromValue(static_cast<qlonglong>(row.board.value)), boardRole);
    where.setText(row.where);
    where.setToolTip(row.tip);
}

/// A view that was filled again, to where it was scrolled before.
void scrollBack(QAbstractItemView& view, int to) {
    view.doItemsLayout(); // the bar knows the new rows only then
    view.verticalScrollBar()->setValue(to);
}

} // namespace

PartsPanel::PartsPanel(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_tree(new QTreeView(this))
    , m_parts(new QStandardItemModel(this))
    , m_trayTitle(new FractionLabel({}, this))
    , m_tray(new QListView(this))
    , m_unplaced(new QStandardItemModel(this)) {
    m_tree->setObjectName("partsList");
    m_tree->setAccessibleName(tr("Parts and where they are placed"));
    m_tree->setModel(m_parts);
    m_tree->setItemDelegate(new FractionDelegate(m_tree));
    m_tree->setUniformRowHeights(true);
    m_tree->setIndentation(14);
    m_tree->setFrameShape(QFrame::NoFrame);
    m_tree->header()->setStretchLastSection(false); // where a blank lies is never cut short
    m_tree->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_tray->setObjectName("tray");
    m_tray->setAccessibleName(tr("Not placed, and why"));
    m_tray->setModel(m_unplaced);
    m_tray->setItemDelegate(new FractionDelegate(m_tray));
    m_tray->setFrameShape(QFrame::NoFrame);
    m_tray->setResizeMode(QListView::Adjust);
    m_tray->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_trayTitle->setFont(sized(font(), TextSize::Body, QFont::DemiBold));

    auto* trayBox = new QWidget(this);
    auto* trayLayout = new QVBoxLayout(trayBox);
    trayLayout->setContentsMargins(0, 0, 0, 0);
    trayLayout->setSpacing(0);
    m_trayTitle->setContentsMargins(8, 0, 8, 0);
    auto* titleRow = new QHBoxLayout;
    titleRow->setContentsMargins(8, 8, 8, 4);
    titleRow->addWidget(m_trayTitle, 1);
    trayLayout->addLayout(titleRow);
    trayLayout->addWidget(m_tray, 1);

    auto* split = new QSplitter(Qt::Vertical, this);
    split->setObjectName("partsSplit");
    split->addWidget(m_tree);
    split->addWidget(trayBox);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    split->setSizes({420, 180});
    split->setCollapsible(0, false);
    split->setCollapsible(1, false);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(split);

    connect(m_tree->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& index) { selectFromTree(index); });
    connect(m_tree, &QTreeView::clicked, this, &PartsPanel::selectFromTree);
    connect(m_tray, &QListView::clicked, this, [this](const QModelIndex& index) {
        Selection selection;
        selection.part = PartId{index.data(partRole).toLongLong()};
        m_session.select(selection);
    });
    connect(m_tray, &QListView::activated, this, [this](const QModelIndex& index) {
        const PartId part{index.data(partRole).toLongLong()};
        if (const std::optional<Plan>& plan = m_session.document().plan) {
            for (const Unplaced& unplaced : plan->unplaced) {
                if (unplaced.purpose.part == part) {
                    emit laidOut(unplaced.purpose);
                    return;
                }
            }
        }
    });
    connect(&m_session, &DocumentSession::selectionChanged, this, &PartsPanel::showSelection);
}

void PartsPanel::refresh(const Plan* plan) {
    const QScopedValueRollback guard(m_selecting, true);
    const Document& document = m_session.document();
    const bool isOwn = plan != nullptr && document.plan && plan == &*document.plan;
    const AuditReport* report = isOwn ? &m_session.auditReport() : nullptr;
    TrayRows tray = trayRowsOf(document, plan, report);
    nameTray(tray.title, tray.sign);
    const bool isNewFont = m_listed != font();
    m_listed = font();
    if (isNewFont || tray.rows != m_trayRows) {
        const int scrolled = m_tray->verticalScrollBar()->value();
        fillTray(std::move(tray.rows));
        scrollBack(*m_tray, scrolled); // who reads it reads on
    }
    std::vector<PartRow> rows = partRowsOf(document, plan, report, m_session.lengthStyle());
    const bool isFilled = isNewFont || !takeTexts(rows);
    const int scrolled = m_tree->verticalScrollBar()->value();
    if (isFilled) {
        fillParts(std::move(rows));
    }
    showSelection();
    if (isFilled) {
        scrollBack(*m_tree, scrolled);
    } else {
        m_tree->verticalScrollBar()->setValue(scrolled);
    }
}

/// Where the same blanks stand in the list, only what is said of them is changed in it: filling it
/// anew takes longer than the eye forgives. False where others stand in it.
bool PartsPanel::takeTexts(const std::vector<PartRow>& rows) {
    const auto isSame = [](const PartRow& a, const PartRow& b) {
        return a.part == b.part &&
               std::equal(a.blanks.begin(), a.blanks.end(), b.blanks.begin(), b.blanks.end(),
                          [](const BlankRow& one, const BlankRow& other) {
                              return one.blank == other.blank;
                          });
    };
    if (m_partRows.empty() ||
        !std::equal(rows.begin(), rows.end(), m_partRows.begin(), m_partRows.end(), isSame)) {
        return false;
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i] == m_partRows[i]) {
            continue;
        }
        QStandardItem* part = m_parts->item(static_cast<int>(i), 0);
        tell(*part, *m_parts->item(static_cast<int>(i), 1), rows[i]);
        for (std::size_t k = 0; k < rows[i].blanks.size(); ++k) {
            if (rows[i].blanks[k] != m_partRows[i].blanks[k]) {
                const int row = static_cast<int>(k);
                tell(*part->child(row, 0), *part->child(row, 1), rows[i].blanks[k]);
            }
        }
        m_partRows[i] = rows[i];
    }
    return true;
}

void PartsPanel::fillParts(std::vector<PartRow> rows) {
    std::vector<std::int64_t> closed;
    for (int row = 0; row < m_parts->rowCount(); ++row) {
        if (!m_tree->isExpanded(m_parts->index(row, 0))) {
            closed.push_back(m_parts->index(row, 0).data(partRole).toLongLong());
        }
    }
    m_parts->clear();
    m_parts->setHorizontalHeaderLabels({tr("Part"), tr("Board, at")});
    for (const PartRow& part : rows) {
        auto* name = plainItem();
        auto* count = plainItem();
        name->setData(QVariant::fromValue(static_cast<qlonglong>(part.part.value)), partRole);
        name->setFont(sized(font(), TextSize::Body, QFont::Medium));
        tell(*name, *count, part);
        for (const BlankRow& blank : part.blanks) {
            auto* mark = plainItem();
            auto* where = plainItem();
            mark->setData(QVariant::fromValue(static_cast<qlonglong>(blank.blank.value)),
                          blankRole);
            mark->setData(QVariant::fromValue(static_cast<qlonglong>(part.part.value)), partRole);
            tell(*mark, *where, blank);
            name->appendRow({mark, where});
        }
        m_parts->appendRow({name, count});
        const bool wasClosed =
            std::find(closed.begin(), closed.end(), part.part.value) != closed.end();
        m_tree->setExpanded(name->index(), !wasClosed);
    }
    m_tree->header()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_tree->header()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    m_partRows = std::move(rows);
}

void PartsPanel::nameTray(const QString& words, Sign sign) {
    m_trayWords = words;
    m_traySign = sign;
    const bool awaits = !m_awaited.isEmpty();
    m_trayTitle->setSign(awaits ? Sign::Tick : sign);
    m_trayTitle->setText(awaits ? tr("%1 goes in here").arg(m_awaited) : words);
    // The frame of a legal place on a board.
    QPalette palette = this->palette();
    palette.setColor(QPalette::WindowText, coloursOf(palette).accent);
    m_tray->setPalette(palette);
    m_tray->setLineWidth(2);
    m_tray->setFrameStyle(awaits ? static_cast<int>(QFrame::Box) | static_cast<int>(QFrame::Plain)
                                 : static_cast<int>(QFrame::NoFrame));
}

void PartsPanel::awaitInTray(const QString& label) {
    m_awaited = label;
    nameTray(m_trayWords, m_traySign);
}

void PartsPanel::fillTray(std::vector<TrayRow> rows) {
    m_unplaced->clear();
    for (const TrayRow& row : rows) {
        auto* item = plainItem();
        item->setText(row.text);
        item->setData(static_cast<int>(row.sign), signRole);
        item->setData(row.reason, secondLineRole);
        item->setToolTip(row.reason);
        item->setFont(sized(font(), TextSize::Body, QFont::DemiBold));
        item->setData(QVariant::fromValue(static_cast<qlonglong>(row.part.value)), partRole);
        m_unplaced->appendRow(item);
    }
    m_trayRows = std::move(rows);
}

void PartsPanel::selectFromTree(const QModelIndex& clicked) {
    if (m_selecting || !clicked.isValid()) {
        return;
    }
    const QModelIndex index = clicked.siblingAtColumn(0);
    Selection selection;
    selection.part = PartId{index.data(partRole).toLongLong()};
    if (index.data(blankRole).isValid()) {
        selection.blank = BlankId{index.data(blankRole).toLongLong()};
        selection.board = BoardId{index.data(boardRole).toLongLong()};
    }
    const QScopedValueRollback guard(m_selecting, true);
    m_session.select(selection);
}

void PartsPanel::showSelection() {
    const Selection& selection = m_session.selection();
    QModelIndex wanted;
    for (int row = 0; row < m_parts->rowCount() && !wanted.isValid(); ++row) {
        const QModelIndex part = m_parts->index(row, 0);
        if (selection.blank) {
            for (int child = 0; child < m_parts->rowCount(part); ++child) {
                const QModelIndex blank = m_parts->index(child, 0, part);
                if (blank.data(blankRole).toLongLong() == selection.blank->value) {
                    wanted = blank;
                }
            }
        } else if (selection.part && part.data(partRole).toLongLong() == selection.part->value) {
            wanted = part;
        }
    }
    const QScopedValueRollback guard(m_selecting, true);
    if (wanted.isValid()) {
        m_tree->selectionModel()->setCurrentIndex(wanted, QItemSelectionModel::ClearAndSelect |
                                                              QItemSelectionModel::Rows);
        m_tree->scrollTo(wanted);
    } else {
        m_tree->clearSelection();
        m_tree->selectionModel()->setCurrentIndex({}, QItemSelectionModel::Clear);
    }
}

} // namespace stavewright::ui
