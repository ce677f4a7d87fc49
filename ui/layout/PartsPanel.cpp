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
#include <map>

#include "core/layout/PieceState.h"
#include "core/layout/StateNames.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionDelegate.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr int partRole = Qt::UserRole + 10;
constexpr int blankRole = Qt::UserRole + 11;
constexpr int boardRole = Qt::UserRole + 12;

struct Placed {
    BlankId blank;
    BlankPurpose purpose;
    BoardId board;
    QString boardMark;
    Length from; ///< tape reading of the blank's end nearest the datum
    CutState state = CutState::Planned;
};

std::map<PartId, std::vector<Placed>> placedByPart(const Document& document, const Plan* plan) {
    std::map<PartId, std::vector<Placed>> placed;
    if (plan == nullptr) {
        return placed;
    }
    for (const BoardLayout& layout : plan->boards) {
        const Board* board = findBoard(document, layout.board);
        const QString mark = board != nullptr ? words(board->mark) : QString("?");
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const Rect box = boundingBox(toOuter(section.frame, blank.rect));
                    placed[blank.purpose.part].push_back({blank.id, blank.purpose, layout.board,
                                                          mark, box.x0, stateOf(section, blank)});
                }
            }
        }
    }
    for (auto& [part, blanks] : placed) {
        std::sort(blanks.begin(), blanks.end(),
                  [](const Placed& a, const Placed& b) { return a.purpose < b.purpose; });
    }
    return placed;
}

QStandardItem* plainItem(const QString& text) {
    auto* item = new QStandardItem(text);
    item->setEditable(false);
    return item;
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
    const int parts = m_tree->verticalScrollBar()->value();
    const int tray = m_tray->verticalScrollBar()->value();
    fillParts(plan);
    fillTray(plan);
    showSelection();
    scrollBack(*m_tree, parts); // who reads it reads on
    scrollBack(*m_tray, tray);
}

void PartsPanel::fillParts(const Plan* plan) {
    const Document& document = m_session.document();
    std::vector<std::int64_t> closed;
    for (int row = 0; row < m_parts->rowCount(); ++row) {
        if (!m_tree->isExpanded(m_parts->index(row, 0))) {
            closed.push_back(m_parts->index(row, 0).data(partRole).toLongLong());
        }
    }
    m_parts->clear();
    m_parts->setHorizontalHeaderLabels({tr("Part"), tr("Board, at")});
    const auto placed = placedByPart(document, plan);
    for (const Part& part : document.parts) {
        const auto found = placed.find(part.id);
        const std::size_t done = found == placed.end() ? 0 : found->second.size();
        std::size_t open = 0;
        if (plan != nullptr) {
            open = static_cast<std::size_t>(
                std::count_if(plan->unplaced.begin(), plan->unplaced.end(),
                              [&](const Unplaced& item) { return item.purpose.part == part.id; }));
        }
        auto* name = plainItem(QString("%1  %2").arg(words(part.mark), words(part.name)));
        name->setData(QVariant::fromValue(static_cast<qlonglong>(part.id.value)), partRole);
        name->setToolTip(words(part.name));
        QFont strong = sized(font(), TextSize::Body, QFont::Medium);
        name->setFont(strong);
        QString count = tr("%1 wanted").arg(part.count);
        Sign sign = Sign::None;
        if (plan != nullptr) {
            count = open == 0 ? tr("all %1").arg(done) : tr("%1 of %2").arg(done).arg(done + open);
            sign = open == 0 ? Sign::Tick : Sign::Triangle;
        }
        auto* state = plainItem(count);
        state->setData(static_cast<int>(sign), signRole);
        state->setToolTip(open == 0 ? tr("%1 blanks placed").arg(done)
                                    : tr("%1 blanks placed, %2 not placed").arg(done).arg(open));
        if (found != placed.end()) {
            for (const Placed& blank : found->second) {
                auto* mark = plainItem(words(labelOfAll(document, blank.purpose)));
                mark->setData(QVariant::fromValue(static_cast<qlonglong>(blank.blank.value)),
                              blankRole);
                mark->setData(QVariant::fromValue(static_cast<qlonglong>(part.id.value)), partRole);
                mark->setData(QVariant::fromValue(static_cast<qlonglong>(blank.board.value)),
                              boardRole);
                auto* where = plainItem(
                    tr("%1, at %2")
                        .arg(blank.boardMark, readingText(blank.from, m_session.lengthStyle())));
                if (blank.state != CutState::Planned) {
                    mark->setText(tr("%1, %2").arg(mark->text(), words(briefOf(blank.state))));
                }
                where->setToolTip(
                    tr("On board %1; the tape reads %2 at the blank's near end")
                        .arg(blank.boardMark, readingText(blank.from, m_session.lengthStyle())));
                name->appendRow({mark, where});
            }
        }
        m_parts->appendRow({name, state});
        const bool wasClosed =
            std::find(closed.begin(), closed.end(), part.id.value) != closed.end();
        m_tree->setExpanded(name->index(), !wasClosed);
    }
    m_tree->header()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_tree->header()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
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

void PartsPanel::fillTray(const Plan* plan) {
    m_unplaced->clear();
    const Document& document = m_session.document();
    const auto add = [this](const QString& text, const QString& reason, Sign sign, PartId part) {
        auto* item = plainItem(text);
        item->setData(static_cast<int>(sign), signRole);
        item->setData(reason, secondLineRole);
        item->setToolTip(reason);
        item->setFont(sized(font(), TextSize::Body, QFont::DemiBold));
        item->setData(QVariant::fromValue(static_cast<qlonglong>(part.value)), partRole);
        m_unplaced->appendRow(item);
    };
    if (plan == nullptr) {
        nameTray(document.parts.empty() ? tr("Nothing to place") : tr("Not planned yet"),
                 Sign::None);
        if (document.parts.empty()) {
            add(tr("No parts yet"),
                tr("Put in the parts of the piece in the place Piece (Ctrl+2)."), Sign::None, {});
        } else if (document.boards.empty()) {
            add(tr("No boards yet"), tr("Put in the boards you have in the place Lumber (Ctrl+1)."),
                Sign::None, {});
        } else {
            add(tr("Press Plan (F9)"),
                tr("Every part then gets its place on a board, or a reason here."), Sign::None, {});
        }
        return;
    }
    if (plan->unplaced.empty()) {
        nameTray(tr("Everything is placed"), Sign::Tick);
        return;
    }
    nameTray(tr("Not placed: %1").arg(plan->unplaced.size()), Sign::Triangle);
    // Blanks of one part with one reason stand in one entry.
    for (std::size_t i = 0; i < plan->unplaced.size(); ++i) {
        const Unplaced& first = plan->unplaced[i];
        const auto same = [&](const Unplaced& item) {
            return item.purpose.part == first.purpose.part && item.nearestMiss == first.nearestMiss;
        };
        const auto begin = plan->unplaced.begin();
        if (std::any_of(begin, begin + static_cast<std::ptrdiff_t>(i), same)) {
            continue;
        }
        QStringList marks;
        for (const Unplaced& item : plan->unplaced) {
            if (same(item)) {
                marks << words(labelOfAll(document, item.purpose));
            }
        }
        const Part* part = findPart(document, first.purpose.part);
        const QString name = part != nullptr ? words(part->name) : QString();
        add(QString("%1  %2").arg(marks.join(", "), name), words(first.nearestMiss), Sign::Triangle,
            first.purpose.part);
    }
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
