#include "core/cutting/SectionBound.h"

#include <algorithm>
#include <limits>

#include "core/cutting/Solve.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;
/// Windows of starts that are longer than this are taken by blocks inside.
constexpr int cellsOneByOne = 40;

} // namespace

SectionBound::SectionBound(const Lattice& lattice, const RowBound& rows)
    : m_lattice(&lattice)
    , m_rows(&rows) {}

void SectionBound::addFixed(std::size_t k, int firstStart, int lastStart, Cost worth) {
    const Lattice::KindCells& cells = m_lattice->kind(k);
    const Kind& kind = m_lattice->context().problem->kinds[k];
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const Nm foot = kind.width + m_lattice->context().problem->limits.ripKerf;
    const std::size_t at = m_open.size();
    m_fixed.push_back({&cells, worth, foot % m_lattice->step().across != 0, at});
    m_open.resize(at + Lattice::levels * words, 0);
    for (int level = 0; level < Lattice::levels; ++level) {
        if (level > 0 && !cells.hasLevel[level]) {
            continue;
        }
        Word* open = m_open.data() + at + static_cast<std::size_t>(level) * words;
        for (int i = firstStart; i <= lastStart;) {
            const bool whole =
                i % Lattice::blockCells == 0 && i + Lattice::blockCells - 1 <= lastStart;
            const Word* row = whole
                                  ? cells.block[level].data() +
                                        static_cast<std::size_t>(i / Lattice::blockCells) * words
                                  : cells.open[level].data() + static_cast<std::size_t>(i) * words;
            for (std::size_t w = 0; w < words; ++w) {
                open[w] |= row[w];
            }
            i += whole ? Lattice::blockCells : 1;
        }
    }
}

bool SectionBound::covers(const PoolPlace& a, const PoolPlace& b, std::size_t words,
                          std::size_t rows) {
    for (std::size_t w = 0; w < words; ++w) {
        if ((b.lowOpen[w] & ~a.lowOpen[w]) != 0 || (b.highOpen[w] & ~a.highOpen[w]) != 0) {
            return false;
        }
    }
    bool all = true;
    for (std::size_t m = 0; m < rows; ++m) {
        all &= b.upTo[m] <= a.upTo[m] && b.upToFree[m] <= a.upToFree[m] &&
               b.upToCheap[m] <= a.upToCheap[m];
    }
    return all;
}

void SectionBound::addPool(std::size_t k, int firstStart, int lastStart, Cost paid,
                           double offcutPerRow, int widths) {
    const Lattice::KindCells& cells = m_lattice->kind(k);
    const Kind& kind = m_lattice->context().problem->kinds[k];
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const auto rows = static_cast<std::size_t>(m_lattice->rows());
    const Nm foot = kind.width + m_lattice->context().problem->limits.ripKerf;
    const std::size_t first = m_places.size();
    const bool byBlocks = lastStart - firstStart >= cellsOneByOne;
    for (const Lattice::PoolPose& pose : cells.poses) {
        for (int i = firstStart; i <= lastStart;) {
            const bool whole = byBlocks && i % Lattice::blockCells == 0 &&
                               i + Lattice::blockCells - 1 <= lastStart;
            const Lattice::PoolRows& source = whole ? pose.block : pose.cell;
            const auto at = static_cast<std::size_t>(whole ? i / Lattice::blockCells : i);
            const PoolPlace place{
                source.lowOpen.data() + at * words, source.highOpen.data() + at * words,
                source.upTo.data() + at * rows, source.upToFree.data() + at * rows,
                source.upToCheap.data() + at * rows};
            i += whole ? Lattice::blockCells : 1;
            bool needed = true;
            for (std::size_t p = first; p < m_places.size() && needed; ++p) {
                needed = !covers(m_places[p], place, words, rows);
            }
            if (!needed) {
                continue;
            }
            for (std::size_t p = first; p < m_places.size();) {
                if (covers(place, m_places[p], words, rows)) {
                    m_places[p] = m_places.back();
                    m_places.pop_back();
                } else {
                    ++p;
                }
            }
            m_places.push_back(place);
        }
    }
    m_pools.push_back({k, &cells, paid, offcutPerRow, widths, foot % m_lattice->step().across != 0,
                       first, m_places.size()});
}

Cost SectionBound::most(const SectionRange& range, const BoundPrices& prices,
                        const RowBound::From* behind, double offcut) {
    const Problem& problem = *m_lattice->context().problem;
    const BoardModel& model = m_lattice->model();
    const Limits& limits = problem.limits;
    const LatticeStep step = m_lattice->step();
    const EdgeSlack& slack = m_lattice->slack();
    const Nm g = step.along;
    const int rows = m_lattice->rows();

    const Nm longest = (range.lastEnd + 1 - range.firstBegin) * g - limits.crosscutKerf;
    const Nm shortest = (range.firstEnd - range.lastBegin - 1) * g - limits.crosscutKerf;
    if (longest < limits.leastFacedLength) {
        return 0;
    }
    // What every section of the range covers.
    const Nm sureFrom = std::min(m_lattice->end(), m_lattice->xOf(range.lastBegin + 1));
    const Nm sureTo = std::clamp(m_lattice->begin() + range.firstEnd * g - limits.crosscutKerf,
                                 sureFrom, m_lattice->end());
    const Nm full = widestBetween(model.edges(), sureFrom, sureTo);
    const bool mayWhole = limits.jointerWidth == 0 || full <= limits.jointerWidth;
    const Nm wholeReach =
        mayWhole ? reachable(model.board(), model.size(), sureFrom, sureTo, full) : 0;

    m_fixed.clear();
    m_pools.clear();
    m_places.clear();
    m_open.clear();
    int widest = 0;
    bool anyKind = false;
    Nm thinnest = std::numeric_limits<Nm>::max(); // that is asked for
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Lattice::KindCells& cells = m_lattice->kind(k);
        const Kind& kind = problem.kinds[k];
        if (!cells.isHere || prices.each[k] <= 0) {
            continue;
        }
        const int length =
            static_cast<int>((kind.length + limits.crosscutKerf - slack.longer()) / g);
        const int lastStart = std::min(range.lastEnd - length, m_lattice->cells() - 1);
        if (lastStart < range.firstBegin) {
            continue;
        }
        const bool whole = mayWhole && wholeReach >= kind.thickness;
        if (!whole && ((limits.jointerWidth > 0 && kind.width > limits.jointerWidth) ||
                       reachable(model.board(), model.size(), sureFrom, sureTo, kind.width) <
                           kind.thickness)) {
            continue;
        }
        anyKind = true;
        thinnest = std::min(thinnest, kind.thickness);
        const bool mayBeFlush = kind.length >= shortest && kind.length <= longest + slack.longer();
        const Cost cut = mayBeFlush ? 0 : limits.crosscutCost;
        const Nm left = longest - kind.length;
        const bool keeps = offcut > 0 && left >= limits.offcutLength;
        widest = std::max(widest, cells.footprint + cells.widths * cells.stepCells + 1);
        if (!kind.isPool) {
            const Cost kept = keeps && kind.width >= limits.offcutWidth
                                  ? static_cast<Cost>(offcut * static_cast<double>(left) *
                                                      static_cast<double>(kind.width)) +
                                        1
                                  : 0;
            addFixed(k, range.firstBegin, lastStart, prices.each[k] - cut + kept);
            continue;
        }
        int widths = cells.widths;
        if (!whole) {
            // Rough-ripped: a strip is faced at its own width, and the wider the less is left of
            // it.
            const auto isFaced = [&](int s) {
                const Nm width = kind.width + s * std::max<Nm>(1, kind.step);
                return (limits.jointerWidth == 0 || width <= limits.jointerWidth) &&
                       reachable(model.board(), model.size(), sureFrom, sureTo, width) >=
                           kind.thickness;
            };
            int least = 1; // the narrowest is, as seen above
            while (least < widths) {
                const int middle = (least + widths) / 2;
                (isFaced(middle) ? least : widths) = isFaced(middle) ? middle + 1 : middle;
            }
        }
        addPool(k, range.firstBegin, lastStart, cut,
                keeps ? offcut * static_cast<double>(left) * static_cast<double>(step.across) : 0,
                widths);
    }
    if (!anyKind) {
        return 0;
    }
    const std::vector<RowBound::Height>& heights = m_rows->heights();
    m_heights.clear();
    if (behind != nullptr) {
        for (std::size_t i = 0; i < heights.size(); ++i) {
            if (heights[i].atHigh) {
                continue; // goes with the one before
            }
            const Nm width = heights[i].low;
            const bool whole = mayWhole && wholeReach >= thinnest;
            if (whole ||
                ((limits.jointerWidth == 0 || width <= limits.jointerWidth) &&
                 reachable(model.board(), model.size(), sureFrom, sureTo, width) >= thinnest)) {
                m_heights.push_back(i);
                widest = std::max(widest,
                                  heights[i].footprint + 1 + heights[i].steps + heights[i].carries);
            }
        }
    }
    const double offcutPerRow =
        offcut * static_cast<double>(longest) * static_cast<double>(step.across);
    const int offcutRows = static_cast<int>(limits.offcutWidth / step.across);
    const bool keepsBeside = offcut > 0 && longest >= limits.offcutLength;
    const int offcutCells = static_cast<int>(limits.offcutLength / g);

    m_stack.assign(static_cast<std::size_t>(rows) + static_cast<std::size_t>(widest) + 4, nothing);
    const auto words = static_cast<std::size_t>(m_lattice->words());
    Cost best = 0;
    Cost below = 0; ///< best of all that ends lower; nothing at all costs nothing
    // Fractions of cells may carry the strip's end on.
    const auto reach = [&](int at, int carries, Cost value) {
        for (int end = at; end <= at + carries; ++end) {
            Cost& here = m_stack[static_cast<std::size_t>(end)];
            here = std::max(here, value);
        }
        best = std::max(best, value);
    };
    std::vector<double> keep; // by row: best less the worth of what lies below
    if (keepsBeside) {
        keep.assign(static_cast<std::size_t>(rows) + 1, 0);
    }
    for (int v = 0; v < rows; ++v) {
        const Cost touching = m_stack[static_cast<std::size_t>(v)];
        Cost start = std::max(touching - limits.ripCost, below - 2 * limits.ripCost);
        below = std::max(below, touching);
        if (keepsBeside) {
            // An offcut between the strip below and this one.
            const double here =
                touching == nothing ? -1e18 : static_cast<double>(touching) - offcutPerRow * v;
            keep[static_cast<std::size_t>(v)] =
                std::max(v > 0 ? keep[static_cast<std::size_t>(v) - 1] : 0.0, here);
            const int under = v - std::max(0, offcutRows - 1);
            if (under >= 0) {
                start = std::max(start, static_cast<Cost>(keep[static_cast<std::size_t>(under)] +
                                                          offcutPerRow * (v + 1)) +
                                            1 - 2 * limits.ripCost);
            }
        }
        for (const FixedChoice& choice : m_fixed) {
            const Word* open = m_open.data() + choice.open;
            for (int level = 0; level < Lattice::levels; ++level) {
                if ((level == 0 || choice.cells->hasLevel[level]) &&
                    Lattice::isSet(open + static_cast<std::size_t>(level) * words, v)) {
                    reach(v + choice.cells->footprint, choice.carries,
                          start + choice.worth - m_lattice->levelPrice(level));
                    break;
                }
            }
        }
        for (const PoolChoice& choice : m_pools) {
            const std::vector<Cost>& worth = prices.byWidth[choice.kind];
            const int rip = choice.cells->footprint - choice.cells->width;
            for (std::size_t p = choice.firstPlace; p < choice.lastPlace; ++p) {
                const PoolPlace& place = m_places[p];
                if (!Lattice::isSet(place.lowOpen, v)) {
                    continue;
                }
                const int most = place.upTo[v];
                const int free = place.upToFree[v];
                const int cheap = place.upToCheap[v];
                int high = v + choice.cells->width;
                for (int s = 0; s < choice.widths && high <= most;
                     ++s, high += choice.cells->stepCells) {
                    if (!Lattice::isSet(place.highOpen, high) &&
                        !(choice.carries && high + 1 < rows &&
                          Lattice::isSet(place.highOpen, high + 1))) {
                        continue;
                    }
                    const Cost fills = high <= free    ? 0
                                       : high <= cheap ? m_lattice->levelPrice(1)
                                                       : m_lattice->levelPrice(3);
                    reach(high + rip, choice.carries,
                          start - choice.paid + worth[static_cast<std::size_t>(s)] - fills +
                              static_cast<Cost>(choice.offcutPerRow * (high + 1 - v)));
                }
            }
        }
        if (behind != nullptr) {
            const int group = v / RowBound::groupRows;
            for (const std::size_t i : m_heights) {
                const RowBound::Height& height = heights[i];
                const auto rowOf = [&](std::size_t index) {
                    return offcut > 0
                               ? behind->mostWithOffcut(group, index, range.lastEnd,
                                                        height.high >= limits.offcutWidth
                                                            ? offcut * static_cast<double>(g) *
                                                                  static_cast<double>(height.high)
                                                            : 0,
                                                        offcutCells)
                               : behind->most(group, index, range.lastEnd);
                };
                const Cost row = rowOf(i);
                if (height.steps == 0) {
                    if (row > 0) {
                        reach(v + height.footprint, height.carries, start + row);
                    }
                    continue;
                }
                const Cost rowAtHigh = rowOf(i + 1);
                for (int s = 0; s <= height.steps && std::max(row, rowAtHigh) > 0; ++s) {
                    reach(v + height.footprint + s, height.carries,
                          start + row + (rowAtHigh - row) * s / height.steps + 1);
                }
            }
        }
    }
    if (keepsBeside) {
        // What lies above the last strip.
        for (int v = 0; v < static_cast<int>(m_stack.size()); ++v) {
            if (m_stack[static_cast<std::size_t>(v)] > nothing / 2 && rows - v >= offcutRows) {
                best = std::max(best, m_stack[static_cast<std::size_t>(v)] +
                                          static_cast<Cost>(offcutPerRow * (rows - v)) + 1);
            }
        }
    }
    return best;
}

} // namespace stavewright::cutting
