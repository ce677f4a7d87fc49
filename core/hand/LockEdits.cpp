// What holds wood where it is: locks, and boards that stay whole.

#include <algorithm>

#include "core/hand/Finish.h"
#include "core/hand/HandEdits.h"
#include "core/hand/Refusals.h"

namespace stavewright::hand {

Result<Edit> setLocked(const Document& document, BlankId id, bool locked) {
    if (!document.plan) {
        return noPlan();
    }
    Plan plan = *document.plan;
    const std::optional<TreePlace> place = placeOf(plan, id);
    if (!place) {
        return refused("The blank is no longer in the plan.");
    }
    plan.boards[place->board]
        .sections[place->section]
        .strips[place->strip]
        .blanks[place->blank]
        .locked = locked;
    return Edit{ReplacePlan{std::move(plan)}};
}

Result<Edit> setLocked(const Document& document, SectionId id, bool locked) {
    if (!document.plan) {
        return noPlan();
    }
    Plan plan = *document.plan;
    for (BoardLayout& layout : plan.boards) {
        for (Section& section : layout.sections) {
            if (section.id == id) {
                section.locked = locked;
                return Edit{ReplacePlan{std::move(plan)}};
            }
        }
    }
    return refused("The section is no longer in the plan.");
}

Result<Edit> setLocked(const Document& document, BoardId id, bool locked) {
    if (!document.plan) {
        return noPlan();
    }
    Plan plan = *document.plan;
    for (BoardLayout& layout : plan.boards) {
        if (layout.board == id) {
            layout.locked = locked;
            return Edit{ReplacePlan{std::move(plan)}};
        }
    }
    return refused("The plan does not cut that board; to keep it as it is, set it aside.");
}

Result<Edit> setAside(const Document& document, BoardId id, bool aside) {
    const Board* found = findBoard(document, id);
    if (!found) {
        return refused("The board is no longer in the job.");
    }
    Board board = *found;
    board.setAside = aside;
    const BoardLayout* layout = document.plan ? layoutOf(*document.plan, id) : nullptr;
    if (!aside || !layout) {
        return Edit{ReplaceBoard{std::move(board)}};
    }
    for (const Section& section : layout->sections) {
        if (section.state != CutState::Planned) {
            return refused("Board " + board.mark +
                           " is begun already; what is left of it can be rejected instead.");
        }
    }
    if (holdsLock(*layout)) {
        return refused("Something on board " + board.mark + " is locked; unlock it first.");
    }
    Plan plan = *document.plan;
    std::erase_if(plan.boards, [id](const BoardLayout& each) { return each.board == id; });
    Result<Edit> rest = finished(document, std::move(plan), {id}, document.nextId,
                                 "Its board " + board.mark + " is set aside.");
    if (!rest) {
        return rest;
    }
    return Edit{EditSequence{{{ReplaceBoard{std::move(board)}}, std::move(rest).value()}}};
}

} // namespace stavewright::hand
