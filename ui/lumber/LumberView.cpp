#include "ui/lumber/LumberView.h"

#include <QLabel>

#include <algorithm>

#include "core/tally/TallySums.h"
#include "core/units/QuantityText.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/Reading.h"
#include "ui/lumber/BoardFacts.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/lumber/DefectCells.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/lumber/PhotoDesk.h"
#include "ui/lumber/QuickEntry.h"
#include "ui/lumber/SawnCells.h"
#include "ui/lumber/TallyCells.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

LumberView::LumberView(DocumentSession& session, QWidget* parent)
    : PlaceView(session, "lumber", parent) {
    setPanes(makeTallySide(), makeMiddle(), makeFactSide(), {38, 0, 600}, {20, 272, 330});
    setEmptyWords(
        tr("There are no boards yet. Put in those you have at hand, one row for each."),
        tr("Type the tally"), [this] { typeTally(); }, tr("Ctrl+R"));
    m_quick = new QuickEntry(session, this);
    setCover(m_quick);
    connect(m_quick, &QuickEntry::closeWanted, this, [this] { showCover(false); });
    connect(m_quick, &QuickEntry::placed, this, [this](int boards) {
        const int count = static_cast<int>(m_session.document().boards.size());
        selectBoard(count - boards);
        if (!m_quick->holdsRows()) {
            showCover(false);
            fitColumns();
        }
    });
    addKey("typeTallyKey", {QKeySequence("Ctrl+R")}, [this] { typeTally(); });
    addKey("pasteTallyKey", {QKeySequence("Ctrl+V")}, [this] {
        if (!isCovered() && pastePhotos()) {
            return;
        }
        typeTally();
        if (isCovered()) {
            m_quick->pasteFromClipboard();
        }
    });
    addRowKeys();
    addKey("addDefectKey", {QKeySequence("Ctrl+K")}, [this] { addDefect(); });
    addKey("throughKey", {QKeySequence("Ctrl+T")}, [this] { copyDefectToOtherFace(); });
    connect(&m_session, &DocumentSession::changed, this, [this](const EditScope& scope) {
        const bool isOfThePlan = scope.plan || scope.log || scope.glueUp;
        const bool isOfElse =
            scope.boards || scope.photos || scope.parts || scope.shop || scope.info;
        if (isOfElse || !isOfThePlan) { // measuring the rows again takes its time
            refresh();
        }
    });
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        refresh();
        fitColumns();
    });
    connect(&m_session, &DocumentSession::selectionChanged, this, &LumberView::refreshSelection);
    connectSheet();
    connectPhotos();
    refresh();
}

std::vector<QWidget*> LumberView::panes() const {
    if (showsPhotos()) {
        return {m_tally, &m_photos->canvas(), &m_photos->marks(), &m_photos->facts(), m_facts};
    }
    return {m_tally, m_sheet, m_defects, m_facts};
}

// ---- what the keys do --------------------------------------------------------------------------

void LumberView::addRow() {
    if (isCovered()) {
        m_quick->putInJob();
        return;
    }
    if (board() != nullptr && holdsFocus(m_defects)) {
        addDefect();
    } else if (board() != nullptr && holdsFocus(m_looked)) {
        if (m_looked->finishEntry()) {
            changeBoard(tr("Stretch looked at"),
                        [](const Board& b) { return withStretchSeen(b, BoardFace::A); });
            m_looked->openRow(m_lookedModel->rowCount() - 1);
        }
    } else if (board() != nullptr && holdsFocus(m_sawn)) {
        if (m_sawn->finishEntry()) {
            changeBoard(tr("Say how it is sawn"), withOneMoreRegion);
            m_sawn->openRow(m_sawnModel->rowCount() - 1);
        }
    } else if (board() != nullptr && holdsFocus(m_stations)) {
        if (m_stations->finishEntry()) {
            changeBoard(tr("Add station"), withOneMoreStation);
        }
    } else {
        addBoard();
    }
}

void LumberView::typeTally() {
    if (m_tally->finishEntry() && m_defects->finishEntry()) {
        showCover(true);
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

void LumberView::duplicateRow() {
    if (isCovered()) {
        m_quick->askHowMany();
        return;
    }
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

void LumberView::removeRow() {
    if (isCovered()) {
        return;
    }
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
    } else if (holdsFocus(m_sawn)) {
        const std::size_t row = rowOf(m_sawn);
        if (row < shown->sawn.size()) {
            changeBoard(tr("How it is sawn is not known"), [row](Board b) {
                b.sawn.erase(b.sawn.begin() + static_cast<std::ptrdiff_t>(row));
                return b;
            });
        }
    } else if (holdsFocus(m_stations)) {
        const std::size_t row = rowOf(m_stations);
        changeBoard(tr("Remove station"), [row](const Board& b) { return withoutStation(b, row); });
    } else if (holdsFocus(m_tally)) {
        removeBoard();
    }
}

void LumberView::changeBoard(const QString& step,
                             const std::function<Board(const Board&)>& change) {
    const Board* shown = board();
    if (shown == nullptr) {
        return;
    }
    PlaceView::change(step, replacing(change(*shown)));
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
    showEmpty(document.boards.empty());
    m_tallyModel->setTitles(tallyTitles(document.info.units));
    m_tallyModel->refresh();
    const TallySums sums = sumsOf(document.boards);
    const auto said = [&](BoardFeet amount) {
        return words(lumberText(amount, document.info.units, LumberDetail::Glance));
    };
    m_rackLine->setText((sums.boards == 1 ? tr("1 board: ") : tr("%1 boards: ").arg(sums.boards)) +
                        tr("%1 by tally, %2 by size").arg(said(sums.tallied), said(sums.exact)));
    refreshSelection();
}

void LumberView::refreshSelection() {
    const Board* shown = board();
    m_tally->showRow(boardRow());
    m_defectModel->refresh();
    m_factModel->refreshFacts();
    m_lookedModel->refresh();
    m_sawnModel->refresh();
    m_stationModel->refresh();
    // Asked for by every cell, and not quickly worked out.
    m_reachRows = shown != nullptr ? warpReach(*shown, reachPieces(m_session.document().info.units),
                                               m_session.document().shop.cleaning)
                                   : std::vector<ReachRow>();
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
    m_sheet->setBoard(std::move(picture), m_session.lengthStyle(),
                      DefectId{m_session.document().nextId});
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
    refreshPhotos();
}

void LumberView::refreshReach() {
    const Board* shown = board();
    if (shown == nullptr) {
        m_reachWords->setText({});
        return;
    }
    m_reachWords->setText(
        reachWords(*shown, m_session.document().shop.cleaning, m_session.lengthStyle()));
}

void LumberView::fitColumns() {
    for (EntryView* table : {m_tally, m_defects, m_looked, m_sawn, m_stations, m_reach}) {
        table->fitColumns();
    }
}

} // namespace stavewright::ui
