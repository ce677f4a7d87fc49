// What the place Lumber does to boards and their marks: each is one undo step.

#include <QFileDialog>
#include <QLineEdit>
#include <QSaveFile>
#include <QSplitter>

#include <algorithm>

#include "core/lumber/MarkPlace.h"
#include "core/lumber/Marking.h"
#include "core/tally/StretchNote.h"
#include "core/tally/TallyBoards.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/Reading.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/lumber/DefectCells.h"
#include "ui/lumber/LumberView.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

void LumberView::writeTable() {
    QString path = QFileDialog::getSaveFileName(this, tr("Save the boards as a table"),
                                                m_session.nameForFiles() + tr("-boards") + ".csv",
                                                tr("Tables (*.csv)"));
    if (path.isEmpty()) {
        return;
    }
    QSaveFile file(path);
    const Document& document = m_session.document();
    const std::string text = csvOf(document.boards, document.info.units);
    const bool written = file.open(QIODevice::WriteOnly) &&
                         file.write(text.data(), static_cast<qint64>(text.size())) ==
                             static_cast<qint64>(text.size()) &&
                         file.commit();
    if (written) {
        banner().showMessage(Sign::Tick, tr("Wrote %1 boards to %2. Defects, warp and drawn "
                                            "outlines stand in the job only.")
                                             .arg(document.boards.size())
                                             .arg(path));
    } else {
        banner().showMessage(Sign::Cross,
                             tr("%1 cannot be written: %2.").arg(path, file.errorString()));
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

// ---- marks -------------------------------------------------------------------------------------

void LumberView::addDefect() {
    const Board* shown = board();
    if (shown == nullptr || !m_tally->finishEntry() || !m_defects->finishEntry()) {
        return;
    }
    if (showsPhotos()) {
        showPhotos(false); // the table of defects stands under the drawing
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

void LumberView::connectSheet() {
    connect(m_sheet, &BoardSheet::edited, this, &LumberView::takeDrawn);
    connect(m_sheet, &BoardSheet::refused, this,
            [this](const QString& sentence) { banner().showMessage(Sign::Triangle, sentence); });
    connect(m_sheet, &BoardSheet::nothingPicked, this, &LumberView::pickNothing);
    connect(m_sheet, &BoardSheet::markWanted, this, &LumberView::addDefectOfKind);
    connect(m_sheet, &BoardSheet::kindWanted, this, &LumberView::changeKind);
    connect(m_sheet, &BoardSheet::pairWanted, this, &LumberView::pairDefect);
    connect(m_sheet, &BoardSheet::noteWanted, this, [this] {
        m_note->setFocus();
        m_note->selectAll();
    });
    connect(m_sheet, &BoardSheet::largeWanted, this, [this] {
        showSides(!showsSides());
        auto* middle = findChild<QSplitter*>("lumberMiddle");
        middle->setSizes(showsSides() ? QList<int>{3, 2} : QList<int>{4, 1});
    });
    connect(m_sheet, &BoardSheet::boardWanted, this, [this](int by) {
        const int count = static_cast<int>(m_session.document().boards.size());
        selectBoard(std::clamp(boardRow() + by, 0, count - 1));
    });
    connect(m_sheet, &BoardSheet::removeWanted, this, [this] {
        const std::optional<DefectId> picked = m_session.selection().defect;
        const Defect* defect =
            board() != nullptr && picked ? findDefect(*board(), *picked) : nullptr;
        if (defect != nullptr) {
            changeBoard(tr("Remove defect %1").arg(words(defect->mark)), [picked](Board b) {
                std::erase_if(b.defects, [&](const Defect& each) { return each.id == *picked; });
                return b;
            });
        }
    });
    connect(m_defects, &EntryView::entered, this, [this] {
        if (m_backToSheet) {
            m_backToSheet = false;
            pickNothing();
            m_sheet->setFocus();
        }
    });
    connect(m_note, &QLineEdit::returnPressed, this, &LumberView::sayNote);
}

void LumberView::pickNothing() {
    if (const Board* shown = board()) {
        Selection selection;
        selection.board = shown->id;
        m_session.select(selection);
    }
}

void LumberView::takeDrawn(const QString& step, const Board& drawn,
                           std::optional<DefectId> select) {
    if (PlaceView::change(tr("Board %1: %2").arg(words(drawn.mark), step), replacing(drawn)) &&
        select) {
        Selection selection;
        selection.board = drawn.id;
        selection.defect = select;
        m_session.select(selection);
    }
}

void LumberView::addDefectOfKind(DefectKind kind, bool through) {
    const Board* shown = board();
    if (shown == nullptr || !m_tally->finishEntry() || !m_defects->finishEntry()) {
        return;
    }
    shown = board();
    Board changed = *shown;
    Defect made = newDefect(m_session.document(), *shown, kind);
    if (through) {
        made = shownOnBothFaces(made);
    } else if (m_sheet->face() == BoardFace::B) {
        std::swap(made.onA, made.onB);
    }
    changed.defects.push_back(made);
    const int row = static_cast<int>(changed.defects.size()) - 1;
    if (m_session.edit(tr("Add defect to board %1").arg(words(changed.mark)),
                       replacing(std::move(changed)))) {
        selectDefect(row);
        m_backToSheet = true;
        m_defects->openRow(row, static_cast<int>(DefectColumn::FromDatum));
    }
}

void LumberView::changeKind(DefectId id, DefectKind kind) {
    const Defect* defect = board() != nullptr ? findDefect(*board(), id) : nullptr;
    if (defect == nullptr || defect->kind == kind) {
        return;
    }
    changeBoard(tr("Defect %1 is a %2").arg(words(defect->mark), words(nameOf(kind))),
                [id, kind](Board b) {
                    Defect& changed = *findDefect(b, id);
                    for (std::optional<FaceMark>* mark : {&changed.onA, &changed.onB}) {
                        if (*mark) {
                            *mark = asKind(b.outline, **mark, changed.kind, kind);
                        }
                    }
                    changed.kind = kind;
                    return b;
                });
}

void LumberView::pairDefect() {
    const std::optional<DefectId> picked = m_session.selection().defect;
    const Defect* defect = board() != nullptr && picked ? findDefect(*board(), *picked) : nullptr;
    if (defect == nullptr) {
        banner().showMessage(Sign::Triangle, tr("Pick the mark of a knot first (Tab)."));
        return;
    }
    const QString mark = words(defect->mark);
    if (defect->onA && defect->onB) {
        const DefectId fresh{m_session.document().nextId};
        const std::string name = freeDefectMark(*board());
        changeBoard(tr("Part defect %1 into two").arg(mark),
                    [&](const Board& b) { return parted(b, *picked, fresh, name); });
        return;
    }
    // A knot that goes through slants by no more than a few inches.
    constexpr Length reach = Length::inches(6);
    const auto partner = partnerOf(*board(), *picked, reach);
    if (!partner) {
        banner().showMessage(Sign::Triangle,
                             tr("No single mark lies within 6 inches of %1 on the other face; "
                                "Ctrl+T copies it there.")
                                 .arg(mark));
        return;
    }
    const QString other = words(findDefect(*board(), *partner)->mark);
    changeBoard(tr("Defects %1 and %2 are one").arg(mark, other),
                [&](const Board& b) { return paired(b, *picked, *partner); });
}

void LumberView::sayNote() {
    const Board* shown = board();
    if (shown == nullptr) {
        return;
    }
    const QString text = m_note->text().trimmed();
    if (text.isEmpty()) {
        m_sheet->setFocus();
        return;
    }
    const Result<StretchNote> note =
        readStretchNote(text.toStdString(), m_session.lengthStyle().units, lengthOf(*shown));
    if (!note) {
        banner().showMessage(Sign::Cross, words(note.error().message));
        return; // what was typed stays
    }
    const Result<Board> changed =
        withNote(*shown, note.value(), m_sheet->face(), DefectId{m_session.document().nextId},
                 freeDefectMark(*shown));
    if (!changed) {
        banner().showMessage(Sign::Cross, words(changed.error().message));
        return;
    }
    if (PlaceView::change(tr("Board %1: %2").arg(words(shown->mark), text),
                          replacing(changed.value()))) {
        m_note->clear();
        banner().dismiss();
        m_sheet->setFocus();
    }
}

} // namespace stavewright::ui
