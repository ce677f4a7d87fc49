#include "core/cutting/BoundRanges.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "core/cutting/Leaning.h"
#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;
/// With more, one begins anew.
constexpr std::size_t mostRecalled = 12'000;

double between(const std::vector<double>& upTo, const SectionRange& cells) {
    return upTo[static_cast<std::size_t>(cells.lastEnd) + 1] -
           upTo[static_cast<std::size_t>(cells.firstBegin)];
}

} // namespace

double offcutWorth(const Context& context, const BoardModel& model) {
    const Limits& limits = context.problem->limits;
    if (limits.offcutWorthPercent <= 0 || limits.offcutLength <= 0) {
        return 0;
    }
    return static_cast<double>(model.board().cost) / model.outlineArea() *
           limits.offcutWorthPercent / 100;
}

BoundRanges::BoundRanges(const BoundStretch& stretch, const BoundPrices& prices,
                         const KnownRanges& known)
    : m_stretch(&stretch)
    , m_prices(&prices)
    , m_lattice(&stretch.lattice())
    , m_limits(&stretch.context().problem->limits)
    , m_offcut(offcutWorth(stretch.context(), stretch.model()))
    , m_byWood(stretch, prices) {
    if (m_limits->crosscutCost > 0) {
        m_leaning.emplace(stretch, prices.less(m_limits->crosscutCost));
    }
    weighAreas();
    m_reach.resize(static_cast<std::size_t>(stretch.lastEnd()) + 1);
    m_touch.resize(m_reach.size());
    m_at.resize(m_reach.size());
    m_firstAt.resize(static_cast<std::size_t>(stretch.cells()) + 1);
    if (known.prices != nullptr && known.ranges.size() <= mostRecalled) {
        recall(known);
        return;
    }
    const int size = stretch.rangeCells();
    for (int i = 0; i < stretch.cells(); i += size) {
        const int lastBegin = std::min(stretch.cells() - 1, i + size - 1);
        for (int e = 0; e <= stretch.lastEnd(); e += size) {
            add({i, lastBegin, e, std::min(stretch.lastEnd(), e + size - 1)},
                std::numeric_limits<Cost>::max());
        }
    }
}

void BoundRanges::weighAreas() {
    const auto cells = static_cast<std::size_t>(m_stretch->lastEnd()) + 2;
    const auto along = static_cast<double>(m_lattice->step().along);
    const double cell = along * static_cast<double>(m_lattice->step().across);
    m_area.assign(cells, 0);
    std::vector<double> wood(cells, 0);
    for (std::size_t i = 0; i + 1 < cells; ++i) {
        const double height = i < static_cast<std::size_t>(m_stretch->cells())
                                  ? static_cast<double>(m_lattice->heightAt(static_cast<int>(i)))
                                  : 0;
        m_area[i + 1] = m_area[i] + height * along;
        wood[i + 1] = wood[i];
        for (const WoodRun& run : m_stretch->usable()[i]) {
            wood[i + 1] += run.rows * cell;
        }
    }
    m_wood = WoodByCell::of(*m_lattice, std::move(wood), m_offcut > 0);
}

void BoundRanges::recall(const KnownRanges& known) {
    const CarriedWorth carried(*m_stretch->context().problem, m_wood, *known.prices, *m_prices);
    for (const auto& [cells, most] : known.ranges) {
        add(cells, carried.of(cells, most));
    }
}

void BoundRanges::leaveTo(KnownRanges& known) const {
    known.ranges.clear();
    for (const BoundRange& range : m_ranges) {
        if (!range.isSplit) {
            known.ranges.emplace_back(range.cells, range.most);
        }
    }
    known.prices = std::make_unique<BoundPrices>(*m_prices);
}

BoundRange* BoundRanges::add(const SectionRange& cells, Cost most) {
    const int length = cells.lastEnd - cells.firstBegin;
    if (cells.lastBegin < cells.firstBegin || cells.lastEnd < cells.firstEnd ||
        length < m_stretch->shortest()) {
        return nullptr;
    }
    const ByWood& byWood = m_leaning && allLean(*m_lattice, cells) ? *m_leaning : m_byWood;
    const double estimate = byWood.of(cells) + m_offcut * between(m_area, cells);
    BoundRange range;
    range.cells = cells;
    range.most = std::min(most, static_cast<Cost>(estimate) + 1);
    m_live.push_back(m_ranges.size());
    m_ranges.push_back(range);
    return &m_ranges.back();
}

bool BoundRanges::halve(std::size_t index) {
    const BoundRange range = m_ranges[index];
    const SectionRange& cells = range.cells;
    if (cells.isOne()) {
        return false;
    }
    m_ranges[index].isSplit = true;
    const int begin = (cells.firstBegin + cells.lastBegin) / 2;
    const int end = (cells.firstEnd + cells.lastEnd) / 2;
    add({cells.firstBegin, begin, cells.firstEnd, end}, range.most);
    add({cells.firstBegin, begin, end + 1, cells.lastEnd}, range.most);
    add({begin + 1, cells.lastBegin, cells.firstEnd, end}, range.most);
    add({begin + 1, cells.lastBegin, end + 1, cells.lastEnd}, range.most);
    return true;
}

void BoundRanges::split(std::size_t index, const SectionBound::Room& room, Cost most) {
    const BoundRange range = m_ranges[index];
    const SectionRange& cells = range.cells;
    m_ranges[index].isSplit = true;
    const auto settle = [&](const SectionRange& part) {
        if (BoundRange* settled = add(part, most)) {
            settled->known = BoundRange::Known::exactly;
            settled->isSettled = true;
        }
    };
    const auto leaveRest = [&](const SectionRange& part) {
        if (BoundRange* rest = add(part, range.most)) {
            rest->isRest = true;
        }
    };
    if (most >= range.most) {
        // None that is longer is worth more.
        settle({cells.firstBegin, room.begin, room.end, cells.lastEnd});
    } else {
        settle({room.begin, room.begin, room.end, room.end});
        leaveRest({cells.firstBegin, room.begin - 1, room.end, cells.lastEnd});
        leaveRest({room.begin, room.begin, room.end + 1, cells.lastEnd});
    }
    add({room.begin + 1, cells.lastBegin, cells.firstEnd, cells.lastEnd}, range.most);
    add({cells.firstBegin, room.begin, cells.firstEnd, room.end - 1}, range.most);
}

/// By their last begin: what they stand on must be known by then.
void BoundRanges::order() {
    std::erase_if(m_live,
                  [&](std::size_t r) { return m_ranges[r].isSplit || m_ranges[r].most <= 0; });
    std::fill(m_firstAt.begin(), m_firstAt.end(), std::size_t{0});
    m_order.resize(m_live.size());
    for (const std::size_t r : m_live) {
        ++m_firstAt[static_cast<std::size_t>(m_ranges[r].cells.lastBegin) + 1];
    }
    for (std::size_t i = 1; i < m_firstAt.size(); ++i) {
        m_firstAt[i] += m_firstAt[i - 1];
    }
    m_next.assign(m_firstAt.begin(), m_firstAt.end());
    for (const std::size_t r : m_live) {
        m_order[m_next[static_cast<std::size_t>(m_ranges[r].cells.lastBegin)]++] = r;
    }
}

Cost BoundRanges::worthCut(const BoundRange& range) const {
    const bool endsAlone = m_lattice->end() != m_stretch->model().size().xEnd ||
                           range.cells.lastEnd != m_stretch->lastEnd();
    return range.most - (endsAlone ? m_limits->crosscutCost : 0);
}

void BoundRanges::expect(Cost enough) {
    if (enough >= m_mostLeftOut) {
        return;
    }
    m_live.resize(m_ranges.size());
    std::iota(m_live.begin(), m_live.end(), std::size_t{0});
    m_mostLeftOut = 0;
}

void BoundRanges::leaveOut(Cost enough) {
    if (m_offcut > 0) {
        return; // what is left between sections is worth something
    }
    const int lastEnd = m_stretch->lastEnd();
    m_behind.assign(static_cast<std::size_t>(lastEnd) + 2, 0);
    const auto behind = [&](const BoundRange& range) {
        return m_behind[static_cast<std::size_t>(
            std::max(range.cells.firstEnd, range.cells.lastBegin + 1))];
    };
    auto next = m_order.rbegin(); // by descending last begin
    for (int begin = lastEnd; begin >= 0; --begin) {
        Cost& most = m_behind[static_cast<std::size_t>(begin)];
        most = m_behind[static_cast<std::size_t>(begin) + 1];
        for (; next != m_order.rend() && m_ranges[*next].cells.lastBegin == begin; ++next) {
            most = std::max(most, worthCut(m_ranges[*next]) + behind(m_ranges[*next]));
        }
    }
    std::erase_if(m_live, [&](std::size_t r) {
        const BoundRange& range = m_ranges[r];
        const Cost worth = range.upTo - range.most + worthCut(range) + behind(range);
        const bool matters = worth > enough;
        m_mostLeftOut = matters ? m_mostLeftOut : std::max(m_mostLeftOut, worth);
        return !matters;
    });
}

Cost BoundRanges::best(std::vector<std::size_t>& chain) {
    order();
    const BoardModel& model = m_stretch->model();
    const int lastEnd = m_stretch->lastEnd();
    const bool atBegin = m_lattice->begin() == model.size().xBegin;
    const bool atEnd = m_lattice->end() == model.size().xEnd;
    const Cost cut = m_limits->crosscutCost;
    const int keepCells = static_cast<int>(m_limits->offcutLength / m_lattice->step().along);
    // reach: a section ends here at the earliest; touch: it may end just here, so that the next one
    // needs no crosscut of its own. At: the best that ends here or before, an offcut behind it
    // counted where it is long enough.
    std::fill(m_reach.begin(), m_reach.end(), Best{nothing, none});
    std::fill(m_touch.begin(), m_touch.end(), Best{nothing, none});
    const auto improve = [](Best& place, const Best& by) {
        if (by.value > place.value) {
            place = by;
        }
    };
    Best below;      // a section that ends here or before, or none
    Best all;        // one that ends with the board
    double kept = 0; // the best less the area below it
    std::size_t keptBy = none;
    for (int e = 0; e <= lastEnd; ++e) {
        const auto at = static_cast<std::size_t>(e);
        improve(below, m_reach[at]);
        m_at[at] = below;
        const int from = e - std::max(0, keepCells - 2);
        if (m_offcut > 0 && from >= 0) {
            const Best& reach = m_reach[static_cast<std::size_t>(from)];
            const double worth = static_cast<double>(reach.value) -
                                 m_offcut * m_area[static_cast<std::size_t>(from)];
            if (reach.value > nothing / 2 && worth > kept) {
                kept = worth;
                keptBy = reach.by;
            }
            improve(m_at[at], {static_cast<Cost>(kept + m_offcut * m_area[at + 1]) + 1, keptBy});
        }
        if (e >= m_stretch->cells()) {
            continue;
        }
        for (std::size_t o = m_firstAt[at]; o < m_firstAt[at + 1]; ++o) {
            BoundRange& range = m_ranges[m_order[o]];
            const SectionRange& cells = range.cells;
            Best start = m_at[at];
            start.value -= cut;
            if (atBegin && cells.firstBegin == 0) {
                improve(start, {0, none}); // the end of the board is an end already
            }
            for (int b = cells.firstBegin; b <= cells.lastBegin; ++b) {
                improve(start, m_touch[static_cast<std::size_t>(b)]);
            }
            range.standsOn = start.by;
            const Cost value = start.value + range.most;
            range.upTo = value;
            if (atEnd && cells.lastEnd == lastEnd) {
                improve(all, {value, m_order[o]});
            }
            const Best reached{value - cut, m_order[o]};
            const int end = std::min(lastEnd, std::max(cells.firstEnd, cells.lastBegin + 1));
            improve(m_reach[static_cast<std::size_t>(end)], reached);
            for (int e1 = end; e1 <= cells.lastEnd; ++e1) {
                improve(m_touch[static_cast<std::size_t>(e1)], reached);
            }
        }
    }
    improve(all, m_at[static_cast<std::size_t>(lastEnd)]);
    chain.clear();
    for (std::size_t r = all.by; r != none; r = m_ranges[r].standsOn) {
        chain.push_back(r);
    }
    return std::max(all.value, m_mostLeftOut);
}

} // namespace stavewright::cutting
