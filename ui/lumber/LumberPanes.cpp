// How the place Lumber is built: its three panes and the tables in them.

#include <QLabel>
#include <QLineEdit>
#include <QSplitter>
#include <QStackedWidget>

#include "core/lumber/WarpReach.h"
#include "ui/entry/Cells.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/PlaceParts.h"
#include "ui/lumber/BoardFacts.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/lumber/DefectCells.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/MarkBar.h"
#include "ui/lumber/PhotoDesk.h"
#include "ui/lumber/SawnCells.h"
#include "ui/lumber/SuggestionBar.h"
#include "ui/lumber/TallyCells.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/WrapLayout.h"

namespace stavewright::ui {

QWidget* LumberView::makeTallySide() {
    m_tallyModel = new EntryModel(
        m_session, tallyTitles(m_session.document().info.units),
        [this] { return m_session.document().boards.size(); },
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
    m_tally->setMustSee(static_cast<int>(TallyColumn::SetAside) + 1);
    auto* row = new WrapLayout;
    row->setContentsMargins(8, 6, 8, 6);
    auto* add = smallButton("addBoard", tr("Add board"), tr("Insert or Ctrl+Return"), side);
    auto* whole =
        smallButton("typeTally", tr("Tally..."), tr("Ctrl+R: type or paste many boards"), side);
    auto* table = smallButton("writeTable", tr("Save table..."),
                              tr("The boards as a CSV file for spreadsheets"), side);
    auto* copy = smallButton("duplicateBoard", tr("Duplicate"), tr("Ctrl+D"), side);
    auto* remove = smallButton("removeBoard", tr("Remove"), tr("Del; Ctrl+Z brings it back"), side);
    for (QPushButton* button : {whole, add, copy, remove, table}) {
        row->addWidget(button);
    }
    m_rackLine = new QLabel(side);
    m_rackLine->setObjectName("rackLine");
    m_rackLine->setContentsMargins(8, 4, 8, 6);
    connect(whole, &QPushButton::clicked, this, &LumberView::typeTally);
    connect(table, &QPushButton::clicked, this, &LumberView::writeTable);
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
    m_drawingOrPhotos = new QStackedWidget(middle);
    auto* drawing = new QWidget(m_drawingOrPhotos);
    auto* drawingColumn = new QVBoxLayout(drawing);
    drawingColumn->setContentsMargins(0, 0, 0, 0);
    drawingColumn->setSpacing(0);
    m_sheet = new BoardSheet(drawing);
    m_note = new QLineEdit(drawing);
    m_note->setObjectName("stretchNote");
    m_note->setAccessibleName(tr("Say a stretch of the board in words"));
    m_note->setPlaceholderText(
        tr("/   bad from 31 to 36    the rest sound, under 1    looked at 0 to 40"));
    m_suggestions = new SuggestionBar(
        m_session, *m_sheet, [this] { return board(); }, drawing);
    drawingColumn->addWidget(new MarkBar(*m_sheet, drawing));
    drawingColumn->addWidget(m_suggestions);
    drawingColumn->addWidget(m_sheet, 1);
    drawingColumn->addWidget(m_note);
    m_photos = new PhotoDesk(
        m_session, [this] { return board(); }, m_drawingOrPhotos);
    m_drawingOrPhotos->addWidget(drawing);
    m_drawingOrPhotos->addWidget(m_photos);
    m_defectModel = new EntryModel(
        m_session, defectTitles(),
        [this] { return board() != nullptr ? board()->defects.size() : 0; },
        [this](int row, int column) {
            return defectCell(m_session, *board(), board()->defects[static_cast<std::size_t>(row)],
                              static_cast<DefectColumn>(column));
        },
        this);
    auto* box = new QWidget(middle);
    box->setObjectName("defectsBox");
    auto* layout = new QVBoxLayout(box);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    auto* row = new WrapLayout;
    row->setContentsMargins(8, 4, 8, 4);
    m_boardTitle = heading({}, box);
    m_boardTitle->setObjectName("defectsTitle");
    auto* add =
        smallButton("addDefect", tr("Add defect"), tr("Ctrl+K, or Insert in this table"), box);
    auto* over = smallButton("copyToOtherFace", tr("Through"),
                             tr("Ctrl+T: the defect shows on the other face too"), box);
    auto* pair = smallButton("pairDefect", tr("Pair"),
                             tr("J in the drawing: this mark and the nearest single one on the "
                                "other face are the two ends of one knot; or parts them again"),
                             box);
    auto* remove = smallButton("removeDefect", tr("Remove"), tr("Del in this table"), box);
    row->addWidget(m_boardTitle);
    for (QPushButton* button : {add, over, pair, remove}) {
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
    middle->addWidget(m_drawingOrPhotos);
    middle->addWidget(box);
    middle->setStretchFactor(0, 3);
    middle->setStretchFactor(1, 2);
    middle->setSizes({410, 280});
    connect(add, &QPushButton::clicked, this, &LumberView::addDefect);
    connect(over, &QPushButton::clicked, this, &LumberView::copyDefectToOtherFace);
    connect(pair, &QPushButton::clicked, this, &LumberView::pairDefect);
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
    side->setMinimumWidth(272);
    QVBoxLayout* column = side->column();
    m_factModel = new FactModel(
        m_session,
        [this] {
            return board() != nullptr ? boardFacts(m_session, *board()) : std::vector<Fact>();
        },
        this);
    m_facts = new EntryView("boardFacts", tr("Facts of the board"), m_factModel, side->sheet());
    m_facts->showAsFacts();
    auto* trim =
        smallButton("trimChecks", tr("Trim checks"),
                    tr("Trims both ends behind the checks that run out there"), side->sheet());
    connect(trim, &QPushButton::clicked, this,
            [this] { changeBoard(tr("Trim behind the checks"), trimmedBehindChecks); });
    auto* title = new QHBoxLayout;
    title->addWidget(heading(tr("The board"), side->sheet()), 1);
    title->addWidget(trim);
    column->addLayout(title);
    column->addWidget(m_facts);
    addReach(side);
    addLookedAt(side);
    addSawn(side);
    addOutline(side);
    column->addStretch(1);
    return side;
}

void LumberView::addReach(SideColumn* side) {
    QVBoxLayout* column = side->column();
    m_reachModel = new EntryModel(
        m_session, reachTitles(), [this] { return m_reachRows.size(); },
        [this](int row, int columnIndex) {
            const LengthStyle style = m_session.lengthStyle();
            const ReachRow& reach = m_reachRows[static_cast<std::size_t>(row)];
            static constexpr Length ReachRow::*figures[] = {
                &ReachRow::piece, &ReachRow::fullWidth, &ReachRow::halfWidth, &ReachRow::straight};
            return shownLength(reach.*figures[columnIndex], style);
        },
        this);
    m_reach = new EntryView("warpReach", tr("Thickness that pieces still reach"), m_reachModel,
                            side->sheet());
    m_reach->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_reach->setSelectionMode(QAbstractItemView::NoSelection);
    m_reachWords = new FractionLabel({}, side->sheet());
    m_reachWords->setWrapped(true);
    m_reachWords->setQuiet(true);
    column->addWidget(heading(tr("What pieces still make"), side->sheet()));
    column->addWidget(m_reachWords);
    column->addWidget(m_reach);
}

void LumberView::addLookedAt(SideColumn* side) {
    QVBoxLayout* column = side->column();
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
        auto* seen = smallButton("seenAll" + letter, tr("All of %1").arg(letter),
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
}

void LumberView::addSawn(SideColumn* side) {
    QVBoxLayout* column = side->column();
    m_sawnModel = new EntryModel(
        m_session, sawnTitles(), [this] { return board() != nullptr ? board()->sawn.size() : 0; },
        [this](int row, int columnIndex) {
            return sawnCell(m_session, *board(), static_cast<std::size_t>(row), columnIndex);
        },
        this);
    m_sawn = new EntryView("sawn", tr("Where the board is plain, rift or quartered"), m_sawnModel,
                           side->sheet());
    m_sawn->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    auto* more = smallButton("addSawn", tr("Add"), tr("Insert in this table"), side->sheet());
    connect(more, &QPushButton::clicked, this, [this] {
        m_sawn->setFocus();
        addRow();
    });
    auto* row = new QHBoxLayout;
    row->addWidget(heading(tr("Plain, rift, quartered"), side->sheet()), 1);
    row->addWidget(more);
    column->addLayout(row);
    column->addWidget(m_sawn);
}

void LumberView::addOutline(SideColumn* side) {
    QVBoxLayout* column = side->column();
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
}

} // namespace stavewright::ui
