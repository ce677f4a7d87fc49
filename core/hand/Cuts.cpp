#include "core/hand/Cuts.h"

#include <algorithm>

#include "core/hand/PlanTree.h"

namespace stavewright::hand {

namespace {

void addCrosscuts(const BoardLayout& layout, const Rect& box, Length kerf,
                  std::vector<CutRef>& cuts) {
    for (std::size_t i = 0; i < layout.sections.size(); ++i) {
        const Section& section = layout.sections[i];
        const bool isPlanned = section.state == CutState::Planned;
        const bool shared = i > 0 && section.along.from == layout.sections[i - 1].along.to + kerf;
        if ((isPlanned || section.lowEndUncut) && !shared && section.along.from != box.x0) {
            cuts.push_back({section.id, {}, false});
        }
        if ((isPlanned || section.highEndUncut) && section.along.to != box.x1) {
            cuts.push_back({section.id, {}, true});
        }
    }
}

void addRips(const Shop& shop, const Section& section, std::vector<CutRef>& cuts) {
    const Length kerf = ripKerfOf(shop, section);
    for (std::size_t s = 0; s < section.strips.size(); ++s) {
        const Strip& strip = section.strips[s];
        if (hasRippedBlank(strip)) {
            continue;
        }
        const bool shared = s > 0 && strip.across.from == section.strips[s - 1].across.to + kerf;
        const bool hasLow = !shared && !strip.lowEdgeRipped && strip.across.from > Length();
        const bool isLowLast = nearEdgeOf(shop, section, s) == NearEdge::FallsFree;
        if (hasLow && !isLowLast) {
            cuts.push_back({section.id, strip.id, false});
        }
        if (!strip.highEdgeRipped) {
            cuts.push_back({section.id, strip.id, true});
        }
        if (hasLow && isLowLast) {
            cuts.push_back({section.id, strip.id, false});
        }
    }
}

void addSeconds(const Section& section, const Strip& strip, Length kerf,
                std::vector<CutRef>& cuts) {
    const Stretch along = alongStrip(section, strip);
    for (std::size_t i = 0; i < strip.blanks.size(); ++i) {
        const Blank& blank = strip.blanks[i];
        const Rect& wood = woodOf(blank);
        if (isParted(blank)) {
            continue;
        }
        const bool shared = i > 0 && wood.x0 == woodOf(strip.blanks[i - 1]).x1 + kerf;
        if (!shared && !blank.lowEndCut && wood.x0 > along.from) {
            cuts.push_back({section.id, strip.id, false, blank.id});
        }
        if (!blank.highEndCut && wood.x1 < along.to) {
            cuts.push_back({section.id, strip.id, true, blank.id});
        }
    }
}

} // namespace

bool isParted(const Blank& blank) {
    return blank.state > CutState::Ripped || (blank.lowEndCut && blank.highEndCut);
}

std::vector<CutRef> cutsOn(const Document& document, BoardId board) {
    std::vector<CutRef> cuts;
    const BoardLayout* found = document.plan ? layoutOf(*document.plan, board) : nullptr;
    const Board* wood = findBoard(document, board);
    if (!found || !wood) {
        return cuts;
    }
    BoardLayout layout = *found;
    dropPlannedOffcuts(layout);
    const Machines& machines = document.shop.machines;
    addCrosscuts(layout, boundingBox(wood->outline), machines.crosscut.kerf, cuts);
    for (const Section& section : layout.sections) {
        addRips(document.shop, section, cuts);
    }
    for (const Section& section : layout.sections) {
        for (const Strip& strip : section.strips) {
            addSeconds(section, strip, machines.stripCrosscut.kerf, cuts);
        }
    }
    return cuts;
}

std::optional<Length> markOf(const BoardLayout& layout, const CutRef& cut) {
    for (const Section& section : layout.sections) {
        if (section.id != cut.section) {
            continue;
        }
        if (!cut.strip) {
            return cut.high ? section.along.to : section.along.from;
        }
        for (const Strip& strip : section.strips) {
            if (strip.id != *cut.strip) {
                continue;
            }
            if (!cut.blank) {
                return cut.high ? strip.across.to : strip.across.from;
            }
            for (const Blank& blank : strip.blanks) {
                if (blank.id == *cut.blank) {
                    const Rect& wood = woodOf(blank);
                    return (cut.high ? wood.x1 : wood.x0) - alongStrip(section, strip).from;
                }
            }
        }
    }
    return std::nullopt;
}

std::optional<Length> markOf(const Document& document, BoardId board, const CutRef& cut) {
    const BoardLayout* layout = document.plan ? layoutOf(*document.plan, board) : nullptr;
    return layout ? markOf(*layout, cut) : std::nullopt;
}

const char* nameOf(CutKind kind) {
    switch (kind) {
    case CutKind::Crosscut:
        return "Crosscut";
    case CutKind::Rip:
        return "Rip";
    case CutKind::Second:
        return "Second crosscut";
    }
    return "Cut";
}

Length ripKerfOf(const Shop& shop, const Section& section) {
    return section.facing == FirstFacing::RoughRippedFirst ? shop.machines.roughRip.kerf
                                                           : shop.machines.rip.kerf;
}

NearEdge nearEdgeOf(const Shop& shop, const Section& section, std::size_t strip) {
    // Less than this stays on. Common practice, no source.
    constexpr Length leastSliver = Length::inches(1, 8);
    const Length kerf = ripKerfOf(shop, section);
    const Length edge = strip == 0 ? Length() : section.strips[strip - 1].across.to + kerf;
    const Strip& its = section.strips[strip];
    const Length gap = its.across.from - edge;
    if (gap > kerf && gap - kerf >= shop.machines.narrowestRip) {
        return NearEdge::OwnRip;
    }
    if (its.lowEdgeRipped || hasRippedBlank(its) || gap <= Length()) {
        return NearEdge::Ripped;
    }
    return gap > std::max(kerf, leastSliver) ? NearEdge::FallsFree : NearEdge::StaysOn;
}

bool hasRippedBlank(const Strip& strip) {
    // Crosscut and milled pieces are still in one width.
    return std::any_of(strip.blanks.begin(), strip.blanks.end(),
                       [](const Blank& blank) { return blank.state >= CutState::Ripped; });
}

Stretch alongStrip(const Section& section, const Strip& strip) {
    if (section.frame.isParallel()) {
        return {section.along.from - section.frame.origin.x,
                section.along.to - section.frame.origin.x};
    }
    const auto crossing = [&](Length x, Length v) {
        // Walk along u at this v until the board's x is met: two steps settle a small angle.
        Length u = x - section.frame.origin.x;
        for (int step = 0; step < 4; ++step) {
            u += x - toOuter(section.frame, Point{u, v}).x;
        }
        return u;
    };
    const Stretch across = strip.across;
    return {
        std::min(crossing(section.along.from, across.from),
                 crossing(section.along.from, across.to)),
        std::max(crossing(section.along.to, across.from), crossing(section.along.to, across.to))};
}

} // namespace stavewright::hand
