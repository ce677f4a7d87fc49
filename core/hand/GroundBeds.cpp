// Where across a board a blank can be laid.

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/hand/Ground.h"
#include "core/hand/PlanTree.h"

namespace stavewright::hand {

namespace {

/// Limits of a place across the board.
struct Gap {
    Length from;
    Length to;
};

Length kerfOf(const Shop& shop, const Section& section) {
    return section.facing == FirstFacing::RoughRippedFirst ? shop.machines.roughRip.kerf
                                                           : shop.machines.rip.kerf;
}

/// The wished place held inside the gap, and the gap's two sides.
void addIn(const Gap& gap, Length width, Length wish, Bed bed, std::vector<Bed>& beds) {
    if (gap.to - gap.from < width) {
        return;
    }
    const Length high = gap.to - width;
    for (const Length v : {std::clamp(wish, gap.from, high), gap.from, high}) {
        bed.across = {v, v + width};
        beds.push_back(bed);
    }
}

} // namespace

void Ground::bedsInSection(const Load& load, const Section& section, Point low,
                           std::vector<Bed>& beds) const {
    const Point local = toLocal(section.frame, low);
    const Length kerf = kerfOf(m_document.shop, section);
    const Length trimKerf = m_document.shop.machines.rip.kerf;
    Bed bed;
    bed.section = section.id;
    bed.frame = section.frame;
    Length from; // nothing is ripped on the far side of the straightened edge
    for (const Strip& strip : section.strips) {
        addIn({from, strip.across.from - kerf}, load.width, local.y, bed, beds);
        from = strip.across.to + kerf;
        const Length spare = strip.across.length() - load.width;
        Bed inStrip = bed;
        inStrip.strip = strip.id;
        if (spare == Length() || (load.spec->staves && spare > Length() && spare < trimKerf)) {
            inStrip.across = strip.across;
            beds.push_back(inStrip);
        } else if (spare >= trimKerf) {
            inStrip.across = {strip.across.from, strip.across.from + load.width};
            beds.push_back(inStrip);
            inStrip.across = {strip.across.to - load.width, strip.across.to};
            beds.push_back(inStrip);
        }
    }
    const Polygon outline = toLocal(section.frame, m_board.outline);
    const auto clear = clearAcross(outline, {local.x, local.x + load.spec->length});
    const Length far = clear ? clear->to : boundingBox(outline).y1;
    addIn({from, far}, load.width, local.y, bed, beds);
}

void Ground::bedsOfItsOwn(const Load& load, Point low, std::vector<Bed>& beds) const {
    const Length length = load.spec->length;
    const Rect box = boundingBox(m_board.outline);
    const Length x0 = std::clamp(low.x, box.x0, std::max(box.x0, box.x1 - length));
    const Stretch along{x0, x0 + length};
    Bed bed;
    bed.frame.origin = {Length(), Length()};
    const auto clear = clearAcross(m_board.outline, along);
    if (clear) {
        addIn({clear->from, clear->to}, load.width, low.y, bed, beds);
    }
    // Along the near or the far edge, where the board is crooked or tapers.
    const auto atLow = acrossAt(m_board.outline, along.from);
    const auto atHigh = acrossAt(m_board.outline, std::min(along.to, box.x1));
    if (!atLow || !atHigh) {
        return;
    }
    for (const auto& [from, to] :
         {std::pair(atLow->from, atHigh->from), std::pair(atLow->to, atHigh->to)}) {
        Bed leaning;
        leaning.frame = {{along.from, low.y}, length, to - from};
        if (leaning.frame.isParallel()) {
            continue;
        }
        const auto room = clearAcross(toLocal(leaning.frame, m_board.outline), {{}, length});
        if (room) {
            addIn({room->from, room->to}, load.width, {}, leaning, beds);
        }
    }
}

std::optional<Stretch> Ground::withoutGrowing(const Load& load, const Bed& bed) const {
    const auto section = std::find_if(m_layout.sections.begin(), m_layout.sections.end(),
                                      [&](const Section& each) { return bed.section == each.id; });
    if (section == m_layout.sections.end() || !isFree(m_layout, *section)) {
        return std::nullopt;
    }
    const Stretch positions = positionsWithin(bed, load.length(), reachOf(*section));
    return positions.from <= positions.to ? std::optional(positions) : std::nullopt;
}

std::vector<Bed> Ground::beds(const Load& load, Point low) const {
    std::vector<Bed> beds;
    if (m_board.setAside || m_layout.locked) {
        return beds;
    }
    const Stretch along{low.x, low.x + load.spec->length};
    Length covered; // of the blank's length, by sections
    for (const Section& section : m_layout.sections) {
        const auto commonWith = [&](Stretch other) {
            return std::max(Length(),
                            std::min(along.to, other.to) - std::max(along.from, other.from));
        };
        covered += commonWith(section.along);
        const Stretch reached = reachOf(section);
        const Length common = commonWith(reached);
        if (!section.locked && common * 2 > std::min(along.length(), reached.length())) {
            bedsInSection(load, section, low, beds);
        }
    }
    if (covered * 2 <= along.length()) {
        bedsOfItsOwn(load, low, beds);
    }
    const auto away = [&](const Bed& bed) {
        return abs(bed.across.from - toLocal(bed.frame, low).y);
    };
    // Parallel to the board before leaning, where both are as near.
    std::stable_sort(beds.begin(), beds.end(),
                     [&](const Bed& a, const Bed& b) { return away(a) < away(b); });
    beds.erase(std::unique(beds.begin(), beds.end()), beds.end());
    return beds;
}

} // namespace stavewright::hand
