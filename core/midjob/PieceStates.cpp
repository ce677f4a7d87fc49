#include "core/midjob/MadeCuts.h"

#include <algorithm>

#include "core/hand/PlanTree.h"
#include "core/layout/StateNames.h"
#include "core/midjob/Settle.h"
#include "core/midjob/ShopMarks.h"
#include "core/midjob/Words.h"

namespace stavewright::midjob {

Result<ShopEvent> sizeMeasured(const Document& document, BlankId id, Length length, Length width,
                               const Note& note) {
    if (!document.plan) {
        return noPlan();
    }
    const std::optional<hand::TreePlace> place = hand::placeOf(*document.plan, id);
    if (!place) {
        return refused("The blank is no longer in the plan.");
    }
    const Blank& planned = hand::blankAt(*document.plan, *place);
    const std::string label = labelOf(document, planned.purpose);
    if (length <= Length() || width <= Length()) {
        return refused("The measured size of " + label + " needs a length and a width above 0.");
    }
    const BoardId board = document.plan->boards[place->board].board;
    Happened happened{document, {board}, {}, {}, {}};
    BoardLayout& layout = happened.after.plan->boards[place->board];
    Section& section = layout.sections[place->section];
    std::vector<Blank>& inStrip = section.strips[place->strip].blanks;
    Blank& blank = inStrip[place->blank];
    Rect wood = woodOf(blank);
    const Length kerf = document.shop.machines.stripCrosscut.kerf;
    if (place->blank > 0 && woodOf(inStrip[place->blank - 1]).x1 + kerf == wood.x0) {
        inStrip[place->blank - 1].highEndCut = true; // the same cut
    }
    if (place->blank + 1 < inStrip.size() &&
        wood.x1 + kerf == woodOf(inStrip[place->blank + 1]).x0) {
        inStrip[place->blank + 1].lowEndCut = true;
    }
    // What is larger than planned is trimmed off again; the plan goes on with what it asked for.
    wood.x1 = wood.x0 + std::min(length, wood.length());
    wood.y1 = wood.y0 + std::min(width, wood.width());
    blank.actual = wood;
    blank.state = std::max(blank.state, CutState::Ripped);
    blank.lowEndCut = blank.highEndCut = true;
    cutOut(section);
    cutBefore(layout, section.along.from);
    happened.measured = {id};
    happened.what = label + " measures " + said(document, length) + " by " + said(document, width) +
                    ", planned " + said(document, blank.rect.length()) + " by " +
                    said(document, blank.rect.width()) + "." +
                    takenAsMade(document, happened.after, board);
    return settle(document, std::move(happened), note);
}

std::vector<CutState> statesFor(const Document& document, const BlankPurpose& purpose) {
    const Part* part = findPart(document, purpose.part);
    std::vector<CutState> states = {CutState::Planned, CutState::Cut, CutState::Milled,
                                    CutState::Ripped};
    if (part && (part->makeUp.lamination || part->makeUp.panel)) {
        states.push_back(CutState::Glued);
    }
    if (part && part->makeUp.lamination) {
        states.push_back(CutState::SecondMilled);
    }
    states.push_back(CutState::Final);
    return states;
}

Result<ShopEvent> stateReached(const Document& document, BlankId id, CutState state,
                               const Note& note) {
    if (!document.plan) {
        return noPlan();
    }
    const std::optional<hand::TreePlace> place = hand::placeOf(*document.plan, id);
    if (!place) {
        return refused("The blank is no longer in the plan.");
    }
    const Blank& now = hand::blankAt(*document.plan, *place);
    const std::string label = labelOf(document, now.purpose);
    const std::vector<CutState> allowed = statesFor(document, now.purpose);
    if (std::find(allowed.begin(), allowed.end(), state) == allowed.end()) {
        return refused(label + " is not glued up of several, so it is never " + nameOf(state) +
                       ".");
    }
    if (state == CutState::Planned && now.actual) {
        return refused(label + " was cut to a size of its own, so it cannot be planned wood again; "
                               "undo the cut instead.");
    }
    const BoardId board = document.plan->boards[place->board].board;
    Happened happened{document, {board}, {}, {}, {}};
    BoardLayout& layout = happened.after.plan->boards[place->board];
    Section& section = layout.sections[place->section];
    Blank& blank = section.strips[place->strip].blanks[place->blank];
    blank.state = state;
    if (state < CutState::Ripped) { // still in one piece with what lies beside it
        blank.lowEndCut = blank.highEndCut = false;
    }
    if (state != CutState::Planned) {
        cutOut(section);
        cutBefore(layout, section.along.from);
    }
    happened.what = label + " is " +
                    (state == CutState::Planned ? "not cut any more" : nameOf(state)) + "." +
                    takenAsMade(document, happened.after, board);
    return settle(document, std::move(happened), note);
}

} // namespace stavewright::midjob
