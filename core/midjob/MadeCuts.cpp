#include "core/midjob/MadeCuts.h"

#include <algorithm>

#include "core/hand/PlanTree.h"
#include "core/midjob/Settle.h"
#include "core/midjob/Words.h"
#include "core/planning/Kept.h"

namespace stavewright::midjob {

namespace {

Error noPlan() { return refused("The job has no plan yet; plan first, then mark cuts as made."); }

BoardLayout* layoutIn(Plan& plan, BoardId board) {
    for (BoardLayout& layout : plan.boards) {
        if (layout.board == board) {
            return &layout;
        }
    }
    return nullptr;
}

bool isCutShorter(const Section& section) {
    for (const Strip& strip : section.strips) {
        for (const Blank& blank : strip.blanks) {
            if (blank.actual) {
                return true;
            }
        }
    }
    return false;
}

/// A section that nothing is cut from: waste, so that the cut beside it counts as made.
Section wasteSection(Document& after, const Board& board, Stretch along) {
    Section waste;
    waste.id = after.takeId<SectionId>();
    waste.along = along;
    waste.frame.origin = {along.from, boundingBox(board.outline).y0};
    waste.state = CutState::Cut;
    return waste;
}

void sortSections(BoardLayout& layout) {
    std::stable_sort(
        layout.sections.begin(), layout.sections.end(),
        [](const Section& a, const Section& b) { return a.along.from < b.along.from; });
}

std::string whatWasMade(const Document& document, const Board& board, const hand::CutRef& cut,
                        Length mark, Length where) {
    std::string text = hand::nameOf(cut.kind());
    if (cut.blank) {
        if (const auto place = hand::placeOf(*document.plan, *cut.blank)) {
            text += " of " + labelOf(document, hand::blankAt(*document.plan, *place).purpose);
        }
    }
    text += " made on board " + board.mark + " at " + said(document, where);
    if (mark != where) {
        text += ", its mark at " + said(document, mark);
    }
    return text + ".";
}

/// Everything before the section is off the board too.
void cutBefore(BoardLayout& layout, Length reading) {
    for (Section& section : layout.sections) {
        if (section.along.to <= reading && section.state == CutState::Planned) {
            section.state = CutState::Cut;
        }
    }
}

/// A rip: what lies on the near side of it is ripped.
void markRip(Section& section, const hand::CutRef& cut, Length where) {
    section.state = std::max(section.state, CutState::Cut);
    for (Strip& strip : section.strips) {
        const bool isDone = cut.high && strip.across.to <= where;
        for (Blank& blank : strip.blanks) {
            if (isDone) {
                blank.state = std::max(blank.state, CutState::Ripped);
            } else if (blank.state == CutState::Ripped && blank.actual) {
                blank.state = CutState::Cut; // narrower, but not ripped on its far edge yet
            }
        }
    }
}

/// A second crosscut: the blanks before it are off the strip.
void markSecond(Section& section, const hand::CutRef& cut) {
    for (Strip& strip : section.strips) {
        if (strip.id != *cut.strip) {
            continue;
        }
        for (Blank& blank : strip.blanks) {
            if (blank.id == *cut.blank) {
                return;
            }
            blank.actual = planning::woodOf(blank);
        }
    }
}

/// A crosscut: the section on its datum side is cut, the one beyond it only where it has changed.
void markCrosscut(Document& after, BoardLayout& layout, const BoardLayout& before, std::size_t i,
                  const hand::CutRef& cut) {
    Section& section = layout.sections[i];
    const auto was = std::find_if(before.sections.begin(), before.sections.end(),
                                  [&](const Section& each) { return each.id == section.id; });
    if (cut.high) {
        section.state = CutState::Cut;
        const bool isNext = i + 1 < layout.sections.size() &&
                            before.sections.size() == layout.sections.size() &&
                            before.sections[i + 1].state == CutState::Planned;
        if (isNext && !isCutShorter(layout.sections[i + 1])) {
            layout.sections[i + 1].state = CutState::Planned;
        }
        return;
    }
    if (was->state == CutState::Planned && !isCutShorter(section)) {
        section.state = CutState::Planned;
    }
    const Board& board = *findBoard(after, layout.board);
    const Length kerf = after.shop.machines.crosscut.kerf;
    const Length end = section.along.from - kerf;
    const Length from =
        i == 0 ? boundingBox(board.outline).x0 : layout.sections[i - 1].along.to + kerf;
    if (end > from) {
        layout.sections.push_back(wasteSection(after, board, {from, end}));
        sortSections(layout);
    }
}

} // namespace

Result<ShopEvent> cutMade(const Document& document, BoardId boardId, const hand::CutRef& cut,
                          Length where, const Note& note) {
    if (!document.plan) {
        return noPlan();
    }
    const Board* board = findBoard(document, boardId);
    const std::vector<hand::CutRef> cuts = hand::cutsOn(document, boardId);
    if (!board || std::find(cuts.begin(), cuts.end(), cut) == cuts.end()) {
        return refused("That cut is made already, or the plan no longer has it.");
    }
    const Length mark = *hand::markOf(document, boardId, cut);
    const hand::SafeWindows windows(document);
    const std::optional<hand::Landed> landed = windows.landed(boardId, cut, where);
    const Rect box = boundingBox(board->outline);
    const bool isOn = cut.strip || (where > box.x0 && where < box.x1);
    if (!landed || !isOn) {
        return refused("A cut at " + said(document, where) +
                       " would lie past another cut, or off board " + board->mark +
                       "; it may lie between its neighbours.");
    }
    Happened happened{document, {boardId}, {}, {}, {}};
    BoardLayout& layout = *layoutIn(*happened.after.plan, boardId);
    const BoardLayout before = layout;
    layout = landed->layout;
    const auto found = std::find_if(layout.sections.begin(), layout.sections.end(),
                                    [&](const Section& each) { return each.id == cut.section; });
    const Length begins = found->along.from;
    switch (cut.kind()) {
    case hand::CutKind::Crosscut:
        markCrosscut(happened.after, layout, before,
                     static_cast<std::size_t>(found - layout.sections.begin()), cut);
        break;
    case hand::CutKind::Rip:
        markRip(*found, cut, where);
        break;
    case hand::CutKind::Second:
        markSecond(*found, cut);
        break;
    }
    cutBefore(layout, begins);
    for (const Blank& blank : landed->lost) {
        happened.lost.push_back(blank.id);
    }
    happened.what = whatWasMade(document, *board, cut, mark, where);
    return settle(document, std::move(happened), note);
}

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
    Blank& blank = section.strips[place->strip].blanks[place->blank];
    Rect wood = planning::woodOf(blank);
    // What is larger than planned is trimmed off again; the plan goes on with what it asked for.
    wood.x1 = wood.x0 + std::min(length, wood.length());
    wood.y1 = wood.y0 + std::min(width, wood.width());
    blank.actual = wood;
    blank.state = std::max(blank.state, CutState::Ripped);
    section.state = std::max(section.state, CutState::Cut);
    cutBefore(layout, section.along.from);
    happened.what = label + " measures " + said(document, length) + " by " + said(document, width) +
                    ", planned " + said(document, blank.rect.length()) + " by " +
                    said(document, blank.rect.width()) + ".";
    return settle(document, std::move(happened), note);
}

Result<ShopEvent> freshEnd(const Document& document, BoardId boardId, hand::End end, Length reading,
                           const Note& note) {
    const Board* found = findBoard(document, boardId);
    if (!document.plan || !found) {
        return noPlan();
    }
    const Rect box = boundingBox(found->outline);
    const Length kerf = document.shop.machines.crosscut.kerf;
    const bool atDatum = end == hand::End::Low;
    if (atDatum ? reading <= box.x0 + kerf || reading >= box.x1
                : reading >= box.x1 - kerf || reading <= box.x0) {
        return refused("A fresh end at " + said(document, reading) + " does not lie on board " +
                       found->mark + "; it may lie from " + said(document, box.x0 + kerf) + " to " +
                       said(document, box.x1 - kerf) + ".");
    }
    Happened happened{document, {boardId}, {boardId}, {}, {}};
    Plan& plan = *happened.after.plan;
    Board& board = *std::find_if(happened.after.boards.begin(), happened.after.boards.end(),
                                 [&](const Board& each) { return each.id == boardId; });
    if (atDatum) {
        board.trimAtDatum = reading - box.x0;
    } else {
        board.trimAtFar = box.x1 - reading;
    }
    BoardLayout* layout = layoutIn(plan, boardId);
    if (layout) {
        const auto isGone = [&](const Stretch& along) {
            return atDatum ? along.from < reading : along.to > reading;
        };
        for (const Section& section : layout->sections) {
            if (isGone(section.along) && section.state != CutState::Planned &&
                !section.strips.empty()) {
                return refused("The section from " + said(document, section.along.from) + " to " +
                               said(document, section.along.to) + " of board " + board.mark +
                               " is cut off already; a fresh end there is a cut in that section.");
            }
        }
        hand::dropPlannedOffcuts(*layout);
        std::vector<BlankId> gone;
        for (const Section& section : layout->sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const Rect lies = hand::boxOnBoard(section, blank.rect);
                    if (isGone({lies.x0, lies.x1})) {
                        gone.push_back(blank.id);
                    }
                }
            }
        }
        for (const BlankId id : gone) {
            hand::takeOut(*layout, id);
        }
        for (Section& section : layout->sections) {
            if (atDatum) {
                section.along.from = std::max(section.along.from, reading);
            } else {
                section.along.to = std::min(section.along.to, reading);
            }
        }
        std::erase_if(layout->sections, [](const Section& section) {
            return section.along.from >= section.along.to;
        });
        layout->sections.push_back(wasteSection(happened.after, board,
                                                atDatum ? Stretch{box.x0, reading - kerf}
                                                        : Stretch{reading + kerf, box.x1}));
        sortSections(*layout);
    }
    happened.what =
        "Fresh end taken off board " + board.mark + " at " + said(document, reading) + ".";
    return settle(document, std::move(happened), note);
}

Result<ShopEvent> allCutsMade(const Document& document, BoardId boardId, const Note& note) {
    const Board* board = findBoard(document, boardId);
    if (!document.plan || !board || !hand::layoutOf(*document.plan, boardId)) {
        return refused("The plan does not cut that board.");
    }
    Happened happened{document, {boardId}, {}, {}, {}};
    for (Section& section : layoutIn(*happened.after.plan, boardId)->sections) {
        section.state = std::max(section.state, CutState::Cut);
        for (Strip& strip : section.strips) {
            for (Blank& blank : strip.blanks) {
                blank.state = std::max(blank.state, CutState::Ripped);
            }
        }
    }
    happened.what = "All cuts made on board " + board->mark + ", on their marks.";
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
    section.strips[place->strip].blanks[place->blank].state = state;
    if (state != CutState::Planned) {
        section.state = std::max(section.state, CutState::Cut);
        cutBefore(layout, section.along.from);
    }
    happened.what =
        label + " is " + (state == CutState::Planned ? "rough wood again" : nameOf(state)) + ".";
    return settle(document, std::move(happened), note);
}

std::string nameOf(CutState state) {
    switch (state) {
    case CutState::Planned:
        return "rough";
    case CutState::Cut:
        return "crosscut";
    case CutState::Milled:
        return "milled";
    case CutState::Ripped:
        return "ripped";
    case CutState::Glued:
        return "glued";
    case CutState::SecondMilled:
        return "through its second milling";
    case CutState::Final:
        return "at its final size";
    }
    return "unknown";
}

std::string briefOf(CutState state) {
    return state == CutState::SecondMilled ? "second milling"
           : state == CutState::Final      ? "final"
                                           : nameOf(state);
}

CutState stateOf(const Section& section, const Blank& blank) {
    return section.state == CutState::Planned ? blank.state : std::max(blank.state, CutState::Cut);
}

} // namespace stavewright::midjob
