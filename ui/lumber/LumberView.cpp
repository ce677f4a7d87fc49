#include "ui/lumber/LumberView.h"

#include <QLabel>

#include <algorithm>

#include "core/units/QuantityText.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
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

LumberView::LumberView(DocumentSession& session, QWidget* parent)
    : PlaceView(session, "lumber", parent) {
    setPanes(makeTallySide(), makeMiddle(), makeFactSide(), {38, 0, 600}, {20, 272, 330});
    setEmptyWords(tr("The rack is empty. Put in the boards you have at hand, one row for each."),
                  tr("Add a board"), [this] { addBoard(); });
    addRowKeys();
    addKey("addDefectKey", {QKeySequence("Ctrl+K")}, [this] { addDefect(); });
    addKey("throughKey", {QKeySequence("Ctrl+T")}, [this] { copyDefectToOtherFace(); });
    connect(&m_session, &DocumentSession::changed, this, &LumberView::refresh);
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        refresh();
        fitColumns();
    });
    connect(&m_session, &DocumentSession::selectionChanged, this, &LumberView::refreshSelection);
    refresh();
}

std::vector<QWidget*> LumberView::panes() const { return {m_tally, m_sheet, m_defects, m_facts}; }

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
        banner().showMessage(
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
    BoardFeet all;
    for (const Board& each : document.boards) {
        all += boardFeetOf(each);
    }
    const std::size_t count = document.boards.size();
    m_rackLine->setText(
        (count == 1 ? tr("1 board, %2") : tr("%1 boards, %2").arg(count))
            .replace("%2", words(lumberText(all, document.info.units, LumberDetail::Glance))));
    refreshSelection();
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
    for (EntryView* table : {m_tally, m_defects, m_looked, m_stations, m_reach}) {
        table->fitColumns();
    }
}

} // namespace stavewright::ui
