#include "core/midjob/MadeCuts.h"

#include <algorithm>
#include <set>

#include "core/hand/PlanTree.h"
#include "core/midjob/Settle.h"
#include "core/midjob/ShopMarks.h"
#include "core/midjob/Words.h"

namespace stavewright::midjob {

namespace {

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

std::string whatWasMade(const Document& document, const Board& board, const hand::CutRef& cut,
                        Length mark, Length where, std::size_t before, Earlier earlier) {
    std::string text = hand::nameOf(cut.kind());
    if (cut.blank) {
        if (const auto place = hand::placeOf(*document.plan, *cut.blank)) {
            text += " of " + labelOf(document, hand::blankAt(*document.plan, *place).purpose);
        }
    }
    text += " made on board " + board.mark + " at " + saidReading(document, where);
    if (mark != where) {
        text += ", its mark at " + saidReading(document, mark);
    }
    text += ".";
    if (before > 0) {
        text += before == 1 ? " The cut before it "
                            : " The " + std::to_string(before) + " cuts before it ";
        text += earlier == Earlier::StillToMake
                    ? (before == 1 ? "is" : "are") + std::string(" still to be made.")
                : before == 1 ? "counts as made on its mark."
                              : "count as made on their marks.";
    }
    return text;
}

/// A rip: it ends its strip and, where it is one kerf from the next, begins that one. Blanks of a
/// strip are ripped when both its edges are.
void markRip(const Shop& shop, Section& section, const Section& before, const hand::CutRef& cut,
             Earlier earlier) {
    const Length kerf = hand::ripKerfOf(shop, section);
    std::set<StripId> ripped;
    for (const Strip& strip : before.strips) {
        if (hand::hasRippedBlank(strip)) {
            ripped.insert(strip.id);
        }
    }
    bool isBefore = true; // the strips up to the cut's
    for (std::size_t i = 0; i < section.strips.size(); ++i) {
        Strip& strip = section.strips[i];
        const bool isIts = strip.id == *cut.strip;
        const bool isDone = earlier == Earlier::MadeOnTheirMarks && isBefore;
        isBefore = isBefore && !isIts;
        // Where a sliver falls free the far edge is ripped first. Up to its strip the section is as
        // it was.
        const bool isLowLast =
            isIts && hand::nearEdgeOf(shop, before, i) == hand::NearEdge::FallsFree;
        strip.lowEdgeRipped = strip.lowEdgeRipped || (isIts && !cut.high) || (isDone && !isLowLast);
        strip.highEdgeRipped =
            strip.highEdgeRipped || (isIts && cut.high) || (isDone && (!isIts || isLowLast));
        if (strip.highEdgeRipped && i + 1 < section.strips.size() &&
            section.strips[i + 1].across.from == strip.across.to + kerf) {
            section.strips[i + 1].lowEdgeRipped = true;
        }
    }
    for (Strip& strip : section.strips) {
        const bool isBoth =
            strip.highEdgeRipped && (strip.lowEdgeRipped || strip.across.from <= Length());
        for (Blank& blank : strip.blanks) {
            if (isBoth) {
                blank.state = std::max(blank.state, CutState::Ripped);
            } else if (blank.state == CutState::Ripped && !ripped.contains(strip.id)) {
                blank.state = CutState::Cut; // narrower, but not ripped on both edges yet
            }
        }
    }
}

/// A second crosscut: the blanks that lay before it are off the strip, whatever became of its own.
void freeBefore(Section& section, const Section& before, const hand::CutRef& cut) {
    std::set<BlankId> freed;
    for (const Strip& strip : before.strips) {
        for (std::size_t i = 0; strip.id == *cut.strip && strip.blanks[i].id != *cut.blank; ++i) {
            freed.insert(strip.blanks[i].id);
        }
    }
    for (Strip& strip : section.strips) {
        for (Blank& blank : strip.blanks) {
            const bool isFreed = freed.contains(blank.id);
            blank.highEndCut = blank.highEndCut || isFreed;
            blank.lowEndCut = blank.lowEndCut || isFreed || (cut.high && blank.id == *cut.blank);
        }
    }
}

/// What the saw took in a second crosscut at `where`, in the section's frame.
Rect kerfOf(const Shop& shop, const Section& section, const Strip& strip, const hand::CutRef& cut,
            Length where) {
    const Length kerf = shop.machines.stripCrosscut.kerf;
    const Length u = where + hand::alongStrip(section, strip).from;
    return cut.high ? Rect{u, strip.across.from, u + kerf, strip.across.to}
                    : Rect{u - kerf, strip.across.from, u, strip.across.to};
}

/// A blank ends at it, and so holds it.
bool isHeld(const Strip& strip, const Rect& kerf) {
    return std::any_of(strip.blanks.begin(), strip.blanks.end(), [&](const Blank& blank) {
        const Rect& wood = woodOf(blank);
        return (blank.lowEndCut && wood.x0 == kerf.x1) || (blank.highEndCut && wood.x1 == kerf.x0);
    });
}

/// What lies one kerf before the section is cut off there.
bool isCutOffBefore(const BoardLayout& layout, std::size_t i, Length kerf) {
    if (i == 0) {
        return false;
    }
    const Section& before = layout.sections[i - 1];
    return before.state != CutState::Planned && !before.highEndUncut &&
           before.along.to + kerf == layout.sections[i].along.from;
}

/// Its low end is cut. While nothing in it has become shorter it is planned wood still.
void markLowEnd(Section& section, const Section& was, const Rect& box) {
    section.lowEndUncut = false;
    if (was.state != CutState::Planned) {
        return;
    }
    if (isCutShorter(section)) {
        section.highEndUncut = section.along.to != box.x1;
    } else {
        section.state = CutState::Planned;
    }
}

/// A crosscut: the section on its datum side is cut, the one beyond it only where it has changed.
void markCrosscut(Document& after, BoardLayout& layout, const BoardLayout& before, std::size_t i,
                  const hand::CutRef& cut, Earlier earlier) {
    Section& section = layout.sections[i];
    const Board& board = *findBoard(after, layout.board);
    const Rect box = boundingBox(board.outline);
    const Length kerf = after.shop.machines.crosscut.kerf;
    const auto was = std::find_if(before.sections.begin(), before.sections.end(),
                                  [&](const Section& each) { return each.id == section.id; });
    if (cut.high) {
        const bool isLowMade = section.along.from == box.x0 || isCutOffBefore(layout, i, kerf) ||
                               (was->state != CutState::Planned && !was->lowEndUncut);
        section.lowEndUncut = earlier == Earlier::StillToMake && !isLowMade;
        section.highEndUncut = false;
        section.state = CutState::Cut;
        if (i + 1 < layout.sections.size() && before.sections.size() == layout.sections.size()) {
            Section& next = layout.sections[i + 1];
            if (next.along.from == section.along.to + kerf) {
                markLowEnd(next, before.sections[i + 1], box);
            }
        }
        return;
    }
    markLowEnd(section, *was, box);
    const Length end = section.along.from - kerf;
    const Length from = i == 0 ? box.x0 : layout.sections[i - 1].along.to + kerf;
    if (end > from) {
        addWaste(after, layout, {from, end});
    }
}

} // namespace

std::vector<hand::CutRef> earlierThan(const Document& document, BoardId board,
                                      const hand::CutRef& cut) {
    const hand::CutRef lowEnd{cut.section, {}, false, {}};
    const std::optional<Length> begins = hand::markOf(document, board, cut.strip ? lowEnd : cut);
    const std::optional<Length> mark = hand::markOf(document, board, cut);
    const std::vector<hand::CutRef> all = hand::cutsOn(document, board); // rips in their order
    const auto its = std::find(all.begin(), all.end(), cut);
    std::vector<hand::CutRef> earlier = all;
    std::erase_if(earlier, [&](const hand::CutRef& each) {
        if (!begins || !mark || each == cut) {
            return true;
        }
        const Length at = *hand::markOf(document, board, each);
        switch (each.kind()) {
        case hand::CutKind::Crosscut:
            return each.section == cut.section && cut.strip ? true : at >= *begins;
        case hand::CutKind::Rip:
            if (cut.kind() != hand::CutKind::Rip || each.section != cut.section) {
                return true;
            }
            return std::find(all.begin(), its, each) == its;
        case hand::CutKind::Second:
            return each.strip != cut.strip || !cut.blank || at >= *mark;
        }
        return true;
    });
    return earlier;
}

Result<ShopEvent> cutMade(const Document& document, BoardId boardId, const hand::CutRef& cut,
                          Length where, const Note& note, Earlier earlier) {
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
        return refused("A cut at " + saidReading(document, where) +
                       " would lie past another cut, or off board " + board->mark +
                       "; it may lie between its neighbours.");
    }
    Happened happened{document, {boardId}, {}, {}, {}};
    BoardLayout& layout = *layoutIn(*happened.after.plan, boardId);
    const BoardLayout before = layout;
    layout = landed->layout;
    const auto found = std::find_if(layout.sections.begin(), layout.sections.end(),
                                    [&](const Section& each) { return each.id == cut.section; });
    const Section& sectionBefore =
        *std::find_if(before.sections.begin(), before.sections.end(),
                      [&](const Section& each) { return each.id == cut.section; });
    const Length begins = found->along.from;
    if (cut.strip) {
        cutOut(*found); // who rips it has crosscut it
    }
    switch (cut.kind()) {
    case hand::CutKind::Crosscut:
        markCrosscut(happened.after, layout, before,
                     static_cast<std::size_t>(found - layout.sections.begin()), cut, earlier);
        break;
    case hand::CutKind::Rip:
        markRip(document.shop, *found, sectionBefore, cut, earlier);
        break;
    case hand::CutKind::Second:
        if (earlier == Earlier::MadeOnTheirMarks) {
            freeBefore(*found, sectionBefore, cut);
        }
        for (const Strip& strip : found->strips) {
            const Rect kerf = kerfOf(document.shop, *found, strip, cut, where);
            if (strip.id == *cut.strip && !isHeld(strip, kerf)) {
                // No blank is left beside it that would say where the saw went.
                markGone(happened.after, boardId, toOuter(found->frame, kerf),
                         "The strip is cut through here.");
                happened.replaced = {boardId};
            }
        }
        break;
    }
    if (earlier == Earlier::MadeOnTheirMarks) {
        cutBefore(layout, begins);
    }
    for (const Blank& blank : landed->lost) {
        happened.lost.push_back(blank.id);
    }
    happened.what = whatWasMade(document, *board, cut, mark, where,
                                earlierThan(document, boardId, cut).size(), earlier);
    return settle(document, std::move(happened), note);
}

Result<ShopEvent> allCutsMade(const Document& document, BoardId boardId, const Note& note) {
    const Board* board = findBoard(document, boardId);
    if (!document.plan || !board || !hand::layoutOf(*document.plan, boardId)) {
        return refused("The plan does not cut that board.");
    }
    Happened happened{document, {boardId}, {}, {}, {}};
    for (Section& section : layoutIn(*happened.after.plan, boardId)->sections) {
        cutOut(section);
        for (Strip& strip : section.strips) {
            strip.lowEdgeRipped = strip.highEdgeRipped = true;
            for (Blank& blank : strip.blanks) {
                blank.state = std::max(blank.state, CutState::Ripped);
                blank.lowEndCut = blank.highEndCut = true;
            }
        }
    }
    happened.what = "All cuts made on board " + board->mark + ", on their marks.";
    return settle(document, std::move(happened), note);
}

} // namespace stavewright::midjob
