#include "ui/lumber/LumberView.h"

#include <QAction>
#include <QApplication>
#include <QSplitter>
#include <QStackedWidget>

#include <algorithm>

#include "core/lumber/WarpReach.h"
#include "core/units/QuantityText.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/PlaceParts.h"
#include "ui/entry/Reading.h"
#include "ui/lumber/BoardFacts.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/lumber/DefectCells.h"
#include "ui/lumber/TallyCells.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
constexpr int sideWide = 330;
constexpr int tallyWide = 420;
} // namespace

LumberView::LumberView(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_split(new QSplitter(Qt::Horizontal))
    , m_stack(new QStackedWidget(this))
    , m_banner(new Banner(this)) {
    setObjectName("lumberPlace");
    m_split->setObjectName("lumberSplit");
    m_split->setChildrenCollapsible(false);
    m_split->addWidget(makeTallySide());
    m_split->addWidget(makeMiddle());
    m_split->addWidget(makeFactSide());
    m_split->setStretchFactor(1, 1);
    auto* empty = new EmptyState(
        "lumberEmpty",
        tr("The rack is empty. Put in the boards you have at hand, one row for each."),
        tr("Add a board"), tr("Insert"), m_stack);
    connect(empty, &EmptyState::begun, this, &LumberView::addBoard);
    m_stack->addWidget(m_split);
    m_stack->addWidget(empty);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_banner);
    layout->addWidget(m_stack, 1);
    makeKeys();

    connect(&m_session, &DocumentSession::changed, this, &LumberView::refresh);
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        m_columnsFitted = false;
        refresh();
    });
    connect(&m_session, &DocumentSession::selectionChanged, this, &LumberView::refreshSelection);
    refresh();
}

QWidget* LumberView::makeTallySide() {
    m_tallyModel = new EntryModel(
        m_session, tallyTitles(), [this] { return m_session.document().boards.size(); },
        [this](int row, int column) {
            return tallyCell(m_session, m_session.document().boards[static_cast<std::size_t>(row)],
                             static_cast<TallyColumn>(column));
        },
        this);
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    m_tally = new EntryView("tally", tr("Tally of the boards"), m_tallyModel, side);
    auto* row = new QHBoxLayout;
    row->setContentsMargins(8, 6, 8, 6);
    auto* add = smallButton("addBoard", tr("Add board"), tr("Insert or Ctrl+Return"), side);
    auto* copy = smallButton("duplicateBoard", tr("Duplicate"), tr("Ctrl+D"), side);
    auto* remove = smallButton("removeBoard", tr("Remove"), tr("Del; Ctrl+Z brings it back"), side);
    for (QPushButton* button : {add, copy, remove}) {
        row->addWidget(button);
    }
    row->addStretch(1);
    m_rackLine = new QLabel(side);
    m_rackLine->setObjectName("rackLine");
    m_rackLine->setContentsMargins(8, 4, 8, 6);
    connect(add, &QPushButton::clicked, this, &LumberView::addBoard);
    connect(copy, &QPushButton::clicked, this, &LumberView::duplicateBoard);
    connect(remove, &QPushButton::clicked, this, &LumberView::removeBoard);
    connect(m_tally, &EntryView::rowChosen, this, &LumberView::selectBoard);
    layout->addLayout(row);
    layout->addWidget(m_tally, 1);
    layout->addWidget(m_rackLine);
    return side;
}

QWidget* LumberView::makeMiddle() {
    auto* middle = new QSplitter(Qt::Vertical);
    middle->setObjectName("lumberMiddle");
    middle->setChildrenCollapsible(false);
    m_sheet = new BoardSheet(middle);
    m_defectModel = new EntryModel(
        m_session, defectTitles(),
        [this] { return board() != nullptr ? board()->defects.size() : 0; },
        [this](int row, int column) {
            return defectCell(m_session, *board(), board()->defects[static_cast<std::size_t>(row)],
                              static_cast<DefectColumn>(column));
        },
        this);
    auto* box = new QWidget(middle);
    auto* layout = new QVBoxLayout(box);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    auto* row = new QHBoxLayout;
    row->setContentsMargins(8, 4, 8, 4);
    m_boardTitle = heading({}, box);
    m_boardTitle->setObjectName("defectsTitle");
    auto* add =
        smallButton("addDefect", tr("Add defect"), tr("Ctrl+K, or Insert in this table"), box);
    auto* over = smallButton("copyToOtherFace", tr("Through"),
                             tr("Ctrl+T: the defect shows on the other face too"), box);
    auto* remove = smallButton("removeDefect", tr("Remove"), tr("Del in this table"), box);
    row->addWidget(m_boardTitle, 1);
    for (QPushButton* button : {add, over, remove}) {
        row->addWidget(button);
    }
    m_defects = new EntryView("defects", tr("Defects of the board"), m_defectModel, box);
    m_noDefects = new QLabel(
        tr("No defects marked. Add one (Ctrl+K) and type its letter and where it lies."), box);
    m_noDefects->setObjectName("noDefects");
    m_noDefects->setContentsMargins(12, 8, 12, 8);
    m_noDefects->setWordWrap(true);
    layout->addLayout(row);
    layout->addWidget(m_noDefects);
    layout->addWidget(m_defects, 1);
    middle->addWidget(m_sheet);
    middle->addWidget(box);
    middle->setStretchFactor(0, 3);
    middle->setStretchFactor(1, 2);
    middle->setSizes({430, 260});
    connect(add, &QPushButton::clicked, this, &LumberView::addDefect);
    connect(over, &QPushButton::clicked, this, &LumberView::copyDefectToOtherFace);
    connect(remove, &QPushButton::clicked, this, [this] {
        m_defects->setFocus();
        removeRow();
    });
    connect(m_defects, &EntryView::rowChosen, this, &LumberView::selectDefect);
    connect(m_sheet, &BoardSheet::defectClicked, this, [this](DefectId id) {
        if (const Board* shown = board()) {
            Selection selection;
            selection.board = shown->id;
            selection.defect = id;
            m_session.select(selection);
        }
    });
    return middle;
}

QWidget* LumberView::makeFactSide() {
    auto* side = new SideColumn("boardFactsSide", tr("What is known of the board"));
    side->setMinimumWidth(250);
    QVBoxLayout* column = side->column();
    m_factModel = new FactModel(
        m_session,
        [this] {
            return board() != nullptr ? boardFacts(m_session, *board()) : std::vector<Fact>();
        },
        this);
    m_facts = new EntryView("boardFacts", tr("Facts of the board"), m_factModel, side->sheet());
    m_facts->showAsFacts();
    column->addWidget(heading(tr("The board"), side->sheet()));
    column->addWidget(m_facts);

    m_reachModel = new EntryModel(
        m_session, reachTitles(),
        [this] {
            return board() != nullptr
                       ? warpReach(*board(), reachPieces(m_session.document().info.units),
                                   m_session.document().shop.cleaning)
                             .size()
                       : 0;
        },
        [this](int row, int columnIndex) {
            const LengthStyle style = m_session.lengthStyle();
            const ReachRow reach =
                warpReach(*board(), reachPieces(style.units),
                          m_session.document().shop.cleaning)[static_cast<std::size_t>(row)];
            EntryCell cell;
            cell.kind = EntryCell::Kind::Number;
            cell.text = lengthText(columnIndex == 0   ? reach.piece
                                   : columnIndex == 1 ? reach.fullWidth
                                                      : reach.halfWidth,
                                   style);
            return cell;
        },
        this);
    m_reach = new EntryView("warpReach", tr("Thickness that pieces still reach"), m_reachModel,
                            side->sheet());
    m_reach->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_reach->setSelectionMode(QAbstractItemView::NoSelection);
    m_reachWords = new FractionLabel({}, side->sheet());
    m_reachWords->setWrapped(true);
    m_reachWords->setQuiet(true);
    column->addWidget(heading(tr("What warp leaves"), side->sheet()));
    column->addWidget(m_reachWords);
    column->addWidget(m_reach);

    m_lookedModel = new EntryModel(
        m_session, lookedTitles(),
        [this] { return board() != nullptr ? board()->lookedAt.size() : 0; },
        [this](int row, int columnIndex) {
            return lookedCell(m_session, *board(), static_cast<std::size_t>(row), columnIndex);
        },
        this);
    m_looked = new EntryView("lookedAt", tr("Stretches looked at"), m_lookedModel, side->sheet());
    m_looked->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    auto* seenRow = new QHBoxLayout;
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        const QString letter = face == BoardFace::A ? "A" : "B";
        auto* seen = smallButton("seenAll" + letter, tr("Seen all of %1").arg(letter),
                                 tr("The whole face was looked at"), side->sheet());
        connect(seen, &QPushButton::clicked, this, [this, face, letter] {
            changeBoard(tr("Seen all of face %1").arg(letter),
                        [face](const Board& b) { return withFaceSeen(b, face); });
        });
        seenRow->addWidget(seen);
    }
    auto* more = smallButton("addLookedAt", tr("From - to"),
                             tr("A stretch of a face; Insert in this table"), side->sheet());
    connect(more, &QPushButton::clicked, this, [this] {
        m_looked->setFocus();
        addRow();
    });
    seenRow->addWidget(more);
    column->addWidget(heading(tr("Looked at"), side->sheet()));
    column->addLayout(seenRow);
    column->addWidget(m_looked);

    m_stationModel = new EntryModel(
        m_session, stationTitles(),
        [this] { return board() != nullptr ? stationsOf(board()->outline).size() : 0; },
        [this](int row, int columnIndex) {
            return stationCell(m_session, *board(), static_cast<std::size_t>(row), columnIndex);
        },
        this);
    m_stations = new EntryView("outline", tr("Outline"), m_stationModel, side->sheet());
    m_stations->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    auto* addStation =
        smallButton("addStation", tr("Add station"), tr("Insert in this table"), side->sheet());
    connect(addStation, &QPushButton::clicked, this, [this] {
        m_stations->setFocus();
        addRow();
    });
    auto* stationRow = new QHBoxLayout;
    stationRow->addWidget(heading(tr("Outline"), side->sheet()), 1);
    stationRow->addWidget(addStation);
    column->addLayout(stationRow);
    column->addWidget(m_stations);
    column->addStretch(1);
    return side;
}

void LumberView::makeKeys() {
    const auto add = [this](const char* name, const QList<QKeySequence>& keys, auto slot) {
        auto* action = new QAction(this);
        action->setObjectName(name);
        action->setShortcuts(keys);
        action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
        connect(action, &QAction::triggered, this, slot);
        addAction(action);
    };
    add("addRow", {QKeySequence("Ctrl+Return"), QKeySequence("Ctrl+Enter"), QKeySequence("Ins")},
        &LumberView::addRow);
    add("duplicateRow", {QKeySequence("Ctrl+D")}, &LumberView::duplicateRow);
    add("removeRow", {QKeySequence("Del")}, &LumberView::removeRow);
    add("addDefectKey", {QKeySequence("Ctrl+K")}, &LumberView::addDefect);
    add("throughKey", {QKeySequence("Ctrl+T")}, &LumberView::copyDefectToOtherFace);
    add("nextPane", {QKeySequence("F6")}, [this] {
        const std::vector<QWidget*> panes = {m_tally, m_sheet, m_defects, m_facts};
        const auto now = std::find_if(panes.begin(), panes.end(), [](const QWidget* pane) {
            return pane == QApplication::focusWidget() ||
                   pane->isAncestorOf(QApplication::focusWidget());
        });
        const std::size_t next =
            now == panes.end() ? 0 : static_cast<std::size_t>(now - panes.begin()) + 1;
        panes[next % panes.size()]->setFocus();
    });
}

namespace {
bool holdsFocus(const QWidget* widget) {
    const QWidget* focus = QApplication::focusWidget();
    return focus != nullptr && (focus == widget || widget->isAncestorOf(focus));
}
} // namespace

// ---- what the keys do --------------------------------------------------------------------------

void LumberView::addRow() {
    if (board() != nullptr && holdsFocus(m_defects)) {
        addDefect();
    } else if (board() != nullptr && holdsFocus(m_looked)) {
        if (m_looked->finishEntry()) {
            changeBoard(tr("Stretch looked at"),
                        [](const Board& b) { return withStretchSeen(b, BoardFace::A); });
            m_looked->openRow(m_lookedModel->rowCount() - 1);
        }
    } else if (board() != nullptr && holdsFocus(m_stations)) {
        if (m_stations->finishEntry()) {
            changeBoard(tr("Add station"), withOneMoreStation);
        }
    } else {
        addBoard();
    }
}

void LumberView::addBoard() {
    if (!m_tally->finishEntry()) {
        return;
    }
    const Board made = newBoard(m_session.document());
    const std::size_t at = m_session.document().boards.size();
    if (m_session.edit(tr("Add board %1").arg(words(made.mark)), Edit{InsertBoard{at, made}})) {
        selectBoard(static_cast<int>(at));
        m_tally->openRow(static_cast<int>(at));
    }
}

void LumberView::addDefect() {
    const Board* shown = board();
    if (shown == nullptr || !m_tally->finishEntry() || !m_defects->finishEntry()) {
        return;
    }
    shown = board(); // what was being typed has made another of it
    const Defect made = newDefect(m_session.document(), *shown);
    Board changed = *shown;
    changed.defects.push_back(made);
    const int row = static_cast<int>(changed.defects.size()) - 1;
    if (m_session.edit(tr("Add defect to board %1").arg(words(changed.mark)),
                       replacing(std::move(changed)))) {
        selectDefect(row);
        m_defects->openRow(row, static_cast<int>(DefectColumn::Kind));
    }
}

void LumberView::duplicateRow() {
    const Board* shown = board();
    if (shown == nullptr) {
        return;
    }
    const int row = m_defects->currentIndex().row();
    if (!holdsFocus(m_defects) || row < 0) {
        duplicateBoard();
        return;
    }
    if (!m_defects->finishEntry()) {
        return;
    }
    Board changed = *board();
    Defect copy = changed.defects[static_cast<std::size_t>(row)];
    copy.id = DefectId{m_session.document().nextId};
    copy.mark = freeDefectMark(changed);
    changed.defects.push_back(copy);
    const int last = static_cast<int>(changed.defects.size()) - 1;
    if (m_session.edit(tr("Duplicate defect"), replacing(std::move(changed)))) {
        selectDefect(last);
    }
}

void LumberView::duplicateBoard() {
    const Board* shown = board();
    if (shown == nullptr || !m_tally->finishEntry()) {
        return;
    }
    const Board copy = copyOf(m_session.document(), *board());
    const std::size_t at = static_cast<std::size_t>(boardRow()) + 1;
    if (m_session.edit(tr("Duplicate board"), Edit{InsertBoard{at, copy}})) {
        selectBoard(static_cast<int>(at));
    }
}

void LumberView::removeRow() {
    const Board* shown = board();
    if (shown == nullptr) {
        return;
    }
    const auto rowOf = [](const EntryView* view) {
        return static_cast<std::size_t>(std::max(0, view->currentIndex().row()));
    };
    if (holdsFocus(m_defects)) {
        const std::size_t row = rowOf(m_defects);
        if (row < shown->defects.size() && m_defects->currentIndex().isValid()) {
            changeBoard(tr("Remove defect %1").arg(words(shown->defects[row].mark)),
                        [row](Board b) {
                            b.defects.erase(b.defects.begin() + static_cast<std::ptrdiff_t>(row));
                            return b;
                        });
        }
    } else if (holdsFocus(m_looked)) {
        const std::size_t row = rowOf(m_looked);
        if (row < shown->lookedAt.size()) {
            changeBoard(tr("Stretch not looked at"), [row](Board b) {
                b.lookedAt.erase(b.lookedAt.begin() + static_cast<std::ptrdiff_t>(row));
                return b;
            });
        }
    } else if (holdsFocus(m_stations)) {
        const std::size_t row = rowOf(m_stations);
        changeBoard(tr("Remove station"), [row](const Board& b) { return withoutStation(b, row); });
    } else if (holdsFocus(m_tally) || holdsFocus(m_sheet)) {
        removeBoard();
    }
}

void LumberView::removeBoard() {
    const Board* shown = board();
    if (shown == nullptr) {
        return;
    }
    const int row = boardRow();
    const Edit edit = removal(m_session.document(), shown->id);
    const bool withPlan = std::holds_alternative<EditSequence>(edit.change);
    const QString mark = words(shown->mark);
    if (!m_session.edit(tr("Remove board %1").arg(mark), edit)) {
        return;
    }
    const int count = static_cast<int>(m_session.document().boards.size());
    if (count > 0) {
        selectBoard(std::min(row, count - 1));
    }
    if (withPlan) {
        m_banner->showMessage(
            Sign::Triangle,
            tr("Board %1 went, and the plan that cut it; undo (Ctrl+Z) brings both back.")
                .arg(mark));
    }
}

void LumberView::copyDefectToOtherFace() {
    const int row = m_defects->currentIndex().row();
    if (board() == nullptr || row < 0 || !m_defects->finishEntry()) {
        return;
    }
    changeBoard(tr("Defect goes through"), [row](Board b) {
        Defect& defect = b.defects[static_cast<std::size_t>(row)];
        defect = shownOnBothFaces(defect);
        return b;
    });
}

void LumberView::changeBoard(const QString& step,
                             const std::function<Board(const Board&)>& change) {
    const Board* shown = board();
    if (shown == nullptr) {
        return;
    }
    const Edit edit = replacing(change(*shown));
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        m_banner->showMessage(Sign::Cross, words(fits.error().message));
        return;
    }
    m_session.edit(step, edit);
}

// ---- selection and what is shown ---------------------------------------------------------------

const Board* LumberView::board() const {
    return shownBoard(m_session.document(), m_session.selection().board);
}

int LumberView::boardRow() const {
    const std::vector<Board>& boards = m_session.document().boards;
    const Board* shown = board();
    return shown == nullptr ? -1 : static_cast<int>(shown - boards.data());
}

void LumberView::selectBoard(int row) {
    const std::vector<Board>& boards = m_session.document().boards;
    if (row < 0 || static_cast<std::size_t>(row) >= boards.size()) {
        return;
    }
    const BoardId id = boards[static_cast<std::size_t>(row)].id;
    if (m_session.selection().board != id) {
        Selection selection;
        selection.board = id;
        m_session.select(selection);
    }
}

void LumberView::selectDefect(int row) {
    const Board* shown = board();
    if (shown == nullptr || row < 0 || static_cast<std::size_t>(row) >= shown->defects.size()) {
        return;
    }
    Selection selection;
    selection.board = shown->id;
    selection.defect = shown->defects[static_cast<std::size_t>(row)].id;
    m_session.select(selection);
}

void LumberView::refresh() {
    const Document& document = m_session.document();
    m_stack->setCurrentIndex(document.boards.empty() ? 1 : 0);
    m_tallyModel->refresh();
    BoardFeet all;
    for (const Board& each : document.boards) {
        all += boardFeetOf(each);
    }
    const std::size_t count = document.boards.size();
    m_rackLine->setText(
        (count == 1 ? tr("1 board, %2 bd ft") : tr("%1 boards, %2 bd ft").arg(count))
            .replace("%2", words(formatBoardFeet(all, 1))));
    refreshSelection();
    fitColumns();
}

void LumberView::refreshSelection() {
    const Board* shown = board();
    m_tally->showRow(boardRow());
    m_defectModel->refresh();
    m_factModel->refreshFacts();
    m_lookedModel->refresh();
    m_stationModel->refresh();
    m_reachModel->refresh();
    const bool none = shown == nullptr || shown->defects.empty();
    m_noDefects->setVisible(none);
    m_defects->setVisible(!none);
    m_boardTitle->setText(shown != nullptr ? tr("Defects of board %1").arg(words(shown->mark))
                                           : QString());
    std::optional<BoardPicture> picture;
    if (shown != nullptr) {
        Document alone;
        alone.info = m_session.document().info;
        alone.boards = {*shown};
        picture = std::move(picturesOf(alone, nullptr, {}, m_session.lengthStyle()).front());
    }
    m_sheet->setBoard(std::move(picture), m_session.lengthStyle());
    const std::optional<DefectId> defect = m_session.selection().defect;
    m_sheet->setSelectedDefect(defect);
    int row = -1;
    if (shown != nullptr && defect) {
        const auto found = std::find_if(shown->defects.begin(), shown->defects.end(),
                                        [&](const Defect& each) { return each.id == *defect; });
        row = found == shown->defects.end() ? -1 : static_cast<int>(found - shown->defects.begin());
    }
    if (row >= 0 || !holdsFocus(m_defects)) {
        m_defects->showRow(row);
    }
    refreshReach();
}

void LumberView::refreshReach() {
    const Board* shown = board();
    if (shown == nullptr) {
        m_reachWords->setText({});
        return;
    }
    const Warp& warp = shown->warp;
    const bool flat = warp.bow == Length() && warp.cup == Length() && warp.twist == Length();
    m_reachWords->setText(
        flat ? tr("Entered as flat: every piece reaches the thinnest spot less cleaning.")
             : tr("The shorter and narrower a piece is at its first facing, the thicker it "
                  "stays."));
}

void LumberView::fitColumns() {
    if (m_columnsFitted || m_session.document().boards.empty()) {
        return;
    }
    m_columnsFitted = true;
    m_tally->fitColumns();
    m_defects->fitColumns();
    m_looked->fitColumns();
    m_stations->fitColumns();
    m_reach->fitColumns();
}

void LumberView::focusFirst() {
    if (m_session.document().boards.empty()) {
        findChild<QPushButton*>("lumberEmptyButton")->setFocus();
    } else {
        m_tally->setFocus();
    }
}

void LumberView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    focusFirst(); // the place itself has nothing to type into
}

void LumberView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    focusFirst();
    m_columnsFitted = false;
    fitColumns();
}

void LumberView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const int side = std::min(sideWide, width() / 4);
    const int left = std::min(tallyWide, width() * 3 / 10);
    m_split->setSizes({left, width() - left - side, side});
}

} // namespace stavewright::ui
