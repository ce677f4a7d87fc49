// Where the sections that a bound rests on have room, and what they are.
#include <algorithm>
#include <limits>

#include "core/cutting/SectionBound.h"
#include "core/cutting/StripLabel.h"

namespace stavewright::cutting {

namespace {

/// The least rank in a window of cells, where it stands first and where last; ranks from 0, none
/// below.
template <class RankAt>
std::pair<int, int> leastRank(int first, int last, const RankAt& rankAt) {
    int least = std::numeric_limits<int>::max();
    std::pair<int, int> found{first, first};
    for (int i = first; i <= last; ++i) {
        const int rank = rankAt(i);
        if (rank >= 0 && rank < least) {
            least = rank;
            found = {i, i};
        } else if (rank == least) {
            found.second = i;
        }
    }
    return found;
}

} // namespace

SectionBound::Starts SectionBound::startsOf(const FixedChoice& choice, int v, int until) const {
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const auto [first,
                last] = leastRank(choice.firstStart, std::min(choice.lastStart, until), [&](int i) {
        for (int level = 0; level < Lattice::levels; ++level) {
            if ((level == 0 || choice.cells->hasLevel[level]) &&
                Lattice::isSet(
                    choice.cells->open[level].data() + static_cast<std::size_t>(i) * words, v)) {
                return level;
            }
        }
        return -1;
    });
    return {first, last};
}

SectionBound::Starts SectionBound::startsOf(const PoolChoice& choice, int v, int high,
                                            int until) const {
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const auto [first, last] =
        leastRank(choice.firstStart, std::min(choice.lastStart, until), [&](int i) {
            const auto at = static_cast<std::size_t>(i);
            int rank = -1;
            for (const Lattice::PoolPose& pose : choice.cells->poses) {
                const Word* highOpen = pose.cell.highOpen.data() + at * words;
                if (!Lattice::isSet(pose.cell.lowOpen.data() + at * words, v) ||
                    high > pose.cell.upTo.at(Lattice::dearest, at)[v] ||
                    !m_lattice->isHighOpen(*choice.cells, highOpen, high)) {
                    continue;
                }
                int here = 0;
                while (high > pose.cell.upTo.at(static_cast<std::size_t>(here), at)[v]) {
                    ++here; // the last is known to reach
                }
                rank = rank < 0 ? here : std::min(rank, here);
            }
            return rank;
        });
    return {first, last};
}

SectionBound::Starts SectionBound::startsOf(const StackedStrip& strip, int until) const {
    const StripLabel label(strip.label);
    if (!label.isPool()) {
        return startsOf(m_fixed[label.index()], strip.v, until);
    }
    const PoolChoice& choice = m_pools[label.index()];
    return startsOf(choice, strip.v,
                    strip.v + choice.cells->width + label.step() * choice.cells->stepCells, until);
}

SectionBound::Room SectionBound::roomOf(const BoundPrices& prices, bool ripped) {
    const auto kindOf = [&](const StackedStrip& strip) -> const Kind& {
        const StripLabel label(strip.label);
        return m_lattice->context().problem->kinds[label.isPool() ? m_pools[label.index()].kind
                                                                  : m_fixed[label.index()].kind];
    };
    // As short as it can end first, then as late as it can begin.
    Room room{m_range.lastBegin, m_range.firstEnd};
    for (const std::size_t index : m_traced) {
        const StackedStrip& strip = m_stack.strip(index);
        int end = 0;
        if (StripLabel(strip.label).isRow()) {
            const std::span<const RowStep> rows =
                rowsFrom(m_range.firstBegin, strip, prices, ripped);
            const Cost worth = worthUpTo(rows, m_range.lastEnd);
            for (const RowStep& row : rows) {
                if (row.value >= worth) {
                    end = row.end;
                    break;
                }
            }
        } else {
            end = startsOf(strip, m_lattice->cells()).first + m_lattice->leastCells(kindOf(strip));
        }
        room.end = std::max(room.end, end);
    }
    room.end = std::min(room.end, m_range.lastEnd);
    for (const std::size_t index : m_traced) {
        const StackedStrip& strip = m_stack.strip(index);
        if (!StripLabel(strip.label).isRow()) {
            const int until = room.end - m_lattice->leastCells(kindOf(strip));
            room.begin = std::min(room.begin, startsOf(strip, until).last);
            continue;
        }
        const auto worthFrom = [&](int cell) {
            return worthUpTo(rowsFrom(cell, strip, prices, ripped), room.end);
        };
        const Cost worth = worthFrom(m_range.firstBegin);
        int low = m_range.firstBegin;
        int high = room.begin + 1;
        while (high - low > 1) {
            const int middle = low + (high - low) / 2;
            (worthFrom(middle) >= worth ? low : high) = middle;
        }
        room.begin = std::max(low, m_range.firstBegin);
    }
    return room;
}

BoundSection SectionBound::found(const BoundPrices& prices, const RowBound::From* behind) {
    const LatticeStep step = m_lattice->step();
    const Limits& limits = m_lattice->context().problem->limits;
    const bool ripped = m_ripped;
    m_above = nullptr;
    // As good as what was found could be a stack of guesses; one less, and it must be worked out.
    m_least = std::max<Cost>(0, m_least - 1);
    static_cast<void>(stackUp(prices, behind, ripped));
    BoundSection section;
    section.x0 = m_lattice->xOf(m_range.firstBegin);
    section.x1 =
        std::min(m_lattice->end(),
                 m_lattice->begin() + (m_range.lastEnd + 1) * step.along - 1 - limits.crosscutKerf);
    for (auto at = m_traced.rbegin(); at != m_traced.rend(); ++at) {
        const StackedStrip& stacked = m_stack.strip(*at);
        BoundStrip strip;
        strip.across = stacked.v * step.across;
        const StripLabel label(stacked.label);
        if (label.isRow()) {
            const StripPlace place = placeOf(stacked);
            strip.width = place.low;
            strip.widest = place.high;
            for (const RowBlank& blank :
                 m_strips->at(*m_lattice, place, label.index(), label.step())
                     .blanksOf(*m_lattice, prices, allowedIn(place.low, ripped),
                               beginAt(m_range.firstBegin), m_range.lastEnd)) {
                strip.blanks.push_back({blank.kind, m_lattice->xOf(blank.cell), blank.width});
            }
        } else if (label.isPool()) {
            const PoolChoice& choice = m_pools[label.index()];
            const int s = label.step();
            const Kind& kind = m_lattice->context().problem->kinds[choice.kind];
            strip.width = strip.widest = kind.width + s * std::max<Nm>(1, kind.step);
            const int high = stacked.v + choice.cells->width + s * choice.cells->stepCells;
            strip.blanks.push_back(
                {choice.kind,
                 m_lattice->xOf(startsOf(choice, stacked.v, high, m_lattice->cells()).last),
                 strip.width});
        } else {
            const FixedChoice& choice = m_fixed[label.index()];
            const Kind& kind = m_lattice->context().problem->kinds[choice.kind];
            strip.width = strip.widest = kind.width;
            strip.blanks.push_back(
                {choice.kind, m_lattice->xOf(startsOf(choice, stacked.v, m_lattice->cells()).first),
                 kind.width});
        }
        section.strips.push_back(std::move(strip));
    }
    return section;
}

} // namespace stavewright::cutting
