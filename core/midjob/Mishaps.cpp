#include "core/midjob/Mishaps.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/document/Limits.h"
#include "core/geometry/PolygonOps.h"
#include "core/hand/PlanTree.h"
#include "core/lumber/MarkPlace.h"
#include "core/midjob/Settle.h"
#include "core/midjob/ShopMarks.h"
#include "core/midjob/Words.h"

namespace stavewright::midjob {

namespace {

Board* boardIn(Document& document, BoardId id) {
    const auto found = std::find_if(document.boards.begin(), document.boards.end(),
                                    [id](const Board& each) { return each.id == id; });
    return found == document.boards.end() ? nullptr : &*found;
}

Error noPlanYet() { return refused("The job has no plan yet; put the change in under Lumber."); }

/// A gap over part of the board as it would be over all of it.
Length carried(Length gap, Length whole, Length part, Length wholeToo, Length partToo) {
    if (part <= Length() || partToo <= Length()) {
        return gap;
    }
    const double times =
        static_cast<double>(whole.inNanometres()) / static_cast<double>(part.inNanometres()) *
        static_cast<double>(wholeToo.inNanometres()) / static_cast<double>(partToo.inNanometres());
    const double most = static_cast<double>(limits::thickest.inNanometres());
    return Length::nanometres(
        static_cast<std::int64_t>(std::min(most, static_cast<double>(gap.inNanometres()) * times)));
}

/// What is round, as an ellipse, so that it measures what was typed. It leans as the blank does; a
/// circle leans with nothing.
FaceMark roundMark(const Board& board, const Frame& frame, const Rect& lies) {
    Ellipse form;
    form.centre = toOuter(frame, Point{(lies.x0 + lies.x1) / 2, (lies.y0 + lies.y1) / 2});
    form.along = lies.length();
    form.across = lies.width();
    if (form.along != form.across) {
        form.turnMicroradians =
            std::llround(1e6 * std::atan2(static_cast<double>(frame.rise.inNanometres()),
                                          static_cast<double>(frame.run.inNanometres())));
    }
    const Polygon outline =
        ellipsePolygon(form.centre, form.along, form.across, form.turnMicroradians);
    FaceMark mark = heldOn(board, outline);
    if (mark.outline == outline) { // cut short by the board it is no ellipse
        mark.form = form;
    }
    return mark;
}

} // namespace

Result<Defect> markedOnBlank(const Document& document, BlankId id, DefectKind kind,
                             const OnBlank& mark, bool through) {
    const std::optional<hand::TreePlace> place =
        document.plan ? hand::placeOf(*document.plan, id) : std::nullopt;
    if (!place) {
        return refused("The blank is no longer in the plan.");
    }
    const Blank& blank = hand::blankAt(*document.plan, *place);
    const Section& section = hand::sectionAt(*document.plan, *place);
    const Board& board = *findBoard(document, document.plan->boards[place->board].board);
    const Rect& wood = woodOf(blank);
    if (mark.length <= Length() || mark.width <= Length()) {
        return refused("The mark needs a length and a width above nothing.");
    }
    if (mark.along < Length() || mark.across < Length() ||
        mark.along + mark.length > wood.length() || mark.across + mark.width > wood.width()) {
        return refused("The mark does not lie on the blank, which is " +
                       said(document, wood.length()) + " long and " + said(document, wood.width()) +
                       " wide.");
    }
    Rect lies{wood.x0 + mark.along, wood.y0 + mark.across, wood.x0 + mark.along + mark.length,
              wood.y0 + mark.across + mark.width};
    if (blank.pose.endForEnd) {
        lies.x0 = wood.x1 - mark.along - mark.length;
        lies.x1 = wood.x1 - mark.along;
    }
    if (blank.pose.endForEnd != blank.pose.faceOver) {
        lies.y0 = wood.y1 - mark.across - mark.width;
        lies.y1 = wood.y1 - mark.across;
    }
    Defect defect;
    defect.kind = kind;
    defect.through = through;
    const BoardFace face = blank.pose.faceOver ? other(mark.face) : mark.face;
    (face == BoardFace::A ? defect.onA : defect.onB) =
        isRound(kind) ? roundMark(board, section.frame, lies)
                      : heldOn(board, toOuter(section.frame, lies));
    return defect;
}

Result<ShopEvent> defectFound(const Document& document, BoardId id, Defect defect,
                              const Note& note) {
    if (!document.plan) {
        return noPlanYet();
    }
    Happened happened{document, {id}, {id}, {}, {}};
    Board* board = boardIn(happened.after, id);
    if (!board) {
        return refused("The board is no longer in the job.");
    }
    defect.id = happened.after.takeId<DefectId>();
    if (defect.mark.empty()) {
        defect.mark = freeMark(*board, isRound(defect.kind) ? "K" : "D");
    }
    happened.what = "Found on board " + board->mark + ": " + std::string(nameOf(defect.kind)) +
                    ' ' + defect.mark + ", " + said(document, sizeOf(defect)) + ".";
    board->defects.push_back(std::move(defect));
    if (const Status sound = validate(happened.after); !sound) {
        return sound.error();
    }
    return settle(document, std::move(happened), note);
}

Result<ShopEvent> spoiled(const Document& document, BlankId id, const Note& note) {
    if (!document.plan) {
        return noPlanYet();
    }
    const std::optional<hand::TreePlace> place = hand::placeOf(*document.plan, id);
    if (!place) {
        return refused("The blank is no longer in the plan.");
    }
    const Blank blank = hand::blankAt(*document.plan, *place);
    const Section& section = hand::sectionAt(*document.plan, *place);
    const BoardId boardId = document.plan->boards[place->board].board;
    Happened happened{document, {boardId}, {boardId}, {id}, {}};
    Board& board = *boardIn(happened.after, boardId);
    const std::string label = labelOf(document, blank.purpose);
    markGone(happened.after, boardId, toOuter(section.frame, woodOf(blank)),
             label + " was spoiled; its wood is gone.");
    BoardLayout& layout = happened.after.plan->boards[place->board];
    Section& cut = layout.sections[place->section];
    cut.state = std::max(cut.state, CutState::Cut); // it was cut, or it could not be spoiled
    for (Section& before : layout.sections) {
        if (before.along.to <= cut.along.from) {
            before.state = std::max(before.state, CutState::Cut);
        }
    }
    happened.what = label + " of board " + board.mark + " is spoiled." +
                    takenAsMade(document, happened.after, boardId);
    hand::takeOut(layout, id);
    return settle(document, std::move(happened), note);
}

Result<ShopEvent> boardRejected(const Document& document, BoardId id, const Note& note) {
    if (!document.plan) {
        return noPlanYet();
    }
    Happened happened{document, {id}, {id}, {}, {}};
    Board* board = boardIn(happened.after, id);
    if (!board) {
        return refused("The board is no longer in the job.");
    }
    if (board->setAside) {
        return refused("Board " + board->mark + " is kept out of every plan already.");
    }
    bool isBegun = false;
    Plan& plan = *happened.after.plan;
    for (BoardLayout& layout : plan.boards) {
        if (layout.board != id) {
            continue;
        }
        if (layout.locked && !note.unlock) { // of other locks `settle` names those that break
            return refused("Board " + board->mark + " is locked. Unlock it first.");
        }
        std::erase_if(layout.sections,
                      [](const Section& section) { return section.state == CutState::Planned; });
        isBegun = !layout.sections.empty();
        layout.locked = isBegun;
    }
    if (isBegun) {
        happened.replaced.clear(); // the board as such stays as it is, its cut pieces are in use
    } else {
        std::erase_if(plan.boards, [id](const BoardLayout& layout) { return layout.board == id; });
        board->setAside = true;
    }
    happened.what = "Board " + board->mark +
                    (isBegun ? " is rejected; what is cut from it stays." : " is rejected.");
    return settle(document, std::move(happened), note);
}

Result<ShopEvent> warpMeasured(const Document& document, BoardId id, Stretch along, Length width,
                               const Warp& measured, const Note& note) {
    if (!document.plan) {
        return noPlanYet();
    }
    Happened happened{document, {id}, {id}, {}, {}};
    Board* board = boardIn(happened.after, id);
    if (!board) {
        return refused("The board is no longer in the job.");
    }
    if (measured.bow < Length() || measured.cup < Length() || measured.twist < Length()) {
        return refused("Gaps are measured from nothing upwards.");
    }
    const Length length = lengthOf(*board);
    const Length wide = widthOf(*board);
    if (along.length() <= Length() || along.length() > length || width <= Length() ||
        width > wide) {
        return refused("The piece that was measured must lie on board " + board->mark +
                       ", which is " + said(document, length) + " long and " +
                       said(document, wide) + " wide.");
    }
    board->warp.where = measured.where;
    board->warp.bow = carried(measured.bow, length, along.length(), length, along.length());
    board->warp.cup = carried(measured.cup, wide, width, wide, width);
    board->warp.twist = carried(measured.twist, length, along.length(), wide, width);
    happened.what = "Warp of board " + board->mark + " measured again: bow " +
                    said(document, measured.bow) + ", cup " + said(document, measured.cup) +
                    ", twist " + said(document, measured.twist) + " over " +
                    said(document, along.length()) + ".";
    if (const Status sound = validate(happened.after); !sound) {
        return sound.error();
    }
    return settle(document, std::move(happened), note);
}

} // namespace stavewright::midjob
