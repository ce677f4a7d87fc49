#include "core/cutting/LatticeSection.h"

#include <algorithm>
#include <bit>
#include <limits>

#include "core/cutting/Solve.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

} // namespace

void LatticeSection::price(const Values& values) {
    const Problem& problem = *m_lattice->context().problem;
    const std::size_t count = problem.kinds.size();
    m_each.assign(count, 0);
    m_byWidth.resize(count);
    m_density.assign(count, 0);
    for (std::size_t k = 0; k < count; ++k) {
        const Lattice::KindCells& cells = m_lattice->kind(k);
        const Kind& kind = problem.kinds[k];
        if (!cells.isHere) {
            continue;
        }
        double best = 0;
        if (kind.isPool) {
            m_byWidth[k].resize(static_cast<std::size_t>(cells.widths));
            for (int s = 0; s < cells.widths; ++s) {
                const Nm width = kind.width + s * std::max<Nm>(1, kind.step);
                const Cost worth = values.of(kind, k, width);
                m_byWidth[k][static_cast<std::size_t>(s)] = worth;
                best = std::max(best, static_cast<double>(worth) / static_cast<double>(width));
            }
            m_each[k] = *std::max_element(m_byWidth[k].begin(), m_byWidth[k].end());
        } else {
            m_each[k] = values.of(kind, k, kind.width);
            best = static_cast<double>(m_each[k]) / static_cast<double>(kind.width);
        }
        m_density[k] = best / static_cast<double>(kind.length);
    }
}

double LatticeSection::density(Nm length) const {
    const std::vector<Kind>& kinds = m_lattice->context().problem->kinds;
    double most = 0;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        if (kinds[k].length <= length) {
            most = std::max(most, m_density[k]);
        }
    }
    return most;
}

void LatticeSection::collect(const Lattice::KindCells& cells, std::size_t slot, int firstCell,
                             int lastCell, bool byBlock) {
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const auto rows = static_cast<std::size_t>(m_lattice->rows());
    const bool single = !byBlock && firstCell == lastCell;
    const int from = single ? firstCell : firstCell / Lattice::blockCells;
    const int to =
        single ? firstCell : std::min(lastCell / Lattice::blockCells, m_lattice->blocks() - 1);
    if (cells.poses.empty()) {
        for (int level = 0; level < Lattice::levels; ++level) {
            if (level > 0 && !cells.hasLevel[level]) {
                continue; // nobody asks
            }
            Word* open =
                m_open.data() + (slot * Lattice::levels + static_cast<std::size_t>(level)) * words;
            std::fill_n(open, words, 0);
            const std::vector<Word>& source = single ? cells.open[level] : cells.block[level];
            for (int i = from; i <= to; ++i) {
                const Word* row = source.data() + static_cast<std::size_t>(i) * words;
                for (std::size_t w = 0; w < words; ++w) {
                    open[w] |= row[w];
                }
            }
        }
        return;
    }
    if (m_pools.size() <= slot) {
        m_pools.resize(slot + 1);
    }
    PoolScratch& pool = m_pools[slot];
    pool.count = 0;
    for (const Lattice::PoolPose& pose : cells.poses) {
        const Lattice::PoolRows& source = single ? pose.cell : pose.block;
        for (int i = from; i <= to; ++i) {
            if (pool.places.size() <= pool.count) {
                pool.places.resize(pool.count + 1);
            }
            PoolPlace& place = pool.places[pool.count];
            const auto at = static_cast<std::ptrdiff_t>(i);
            const auto w = static_cast<std::ptrdiff_t>(words);
            place.lowOpen.assign(source.lowOpen.begin() + at * w,
                                 source.lowOpen.begin() + (at + 1) * w);
            place.highOpen.assign(source.highOpen.begin() + at * w,
                                  source.highOpen.begin() + (at + 1) * w);
            const std::int16_t* upTo =
                source.upTo.at(Lattice::dearest, static_cast<std::size_t>(i));
            place.upTo.assign(upTo, upTo + rows);
            // Of two places of which one allows all that the other does, that one is enough.
            bool needed = true;
            for (std::size_t p = 0; p < pool.count && needed; ++p) {
                needed = !covers(pool.places[p], place);
            }
            if (!needed) {
                continue;
            }
            for (std::size_t p = 0; p < pool.count;) {
                if (covers(pool.places[pool.count], pool.places[p])) {
                    std::swap(pool.places[p], pool.places[pool.count - 1]);
                    std::swap(pool.places[pool.count - 1], pool.places[pool.count]);
                    --pool.count;
                } else {
                    ++p;
                }
            }
            ++pool.count;
        }
    }
    for (std::size_t p = 0; p < pool.count; ++p) {
        PoolPlace& place = pool.places[p];
        place.shut.resize(rows + 1);
        place.shut[0] = 0;
        for (std::size_t m = 0; m < rows; ++m) {
            place.shut[m + 1] =
                place.shut[m] +
                (Lattice::isSet(place.highOpen.data(), static_cast<int>(m)) ? 0 : 1);
        }
    }
}

bool LatticeSection::covers(const PoolPlace& a, const PoolPlace& b) {
    for (std::size_t w = 0; w < a.lowOpen.size(); ++w) {
        if ((b.lowOpen[w] & ~a.lowOpen[w]) != 0 || (b.highOpen[w] & ~a.highOpen[w]) != 0) {
            return false;
        }
    }
    for (std::size_t m = 0; m < a.upTo.size(); ++m) {
        if (b.upTo[m] > a.upTo[m]) {
            return false;
        }
    }
    return true;
}

int LatticeSection::choose(int from, int to, Nm length, bool byBlock) {
    const Problem& problem = *m_lattice->context().problem;
    const BoardModel& model = m_lattice->model();
    const Limits& limits = problem.limits;
    const Nm g = m_lattice->step().along;
    const Nm x0 = m_lattice->xOf(from);
    const auto words = static_cast<std::size_t>(m_lattice->words());

    // What the section covers wherever in [from, to] it begins.
    const Nm sureFrom = std::min(m_lattice->end(), m_lattice->xOf(to + 1));
    const Nm sureTo = std::max(sureFrom, std::min(m_lattice->end(), x0 + length));
    const Nm full = widestBetween(model.edges(), sureFrom, std::min(sureTo, m_lattice->end()));
    const bool mayWhole = limits.jointerWidth == 0 || full <= limits.jointerWidth;
    const Nm end = std::min(m_lattice->end(), x0 + length);
    const Nm wholeReach = mayWhole ? reachable(model.board(), model.size(), x0, end, full) : 0;

    m_choices.clear();
    m_fixed.clear();
    m_free.clear();
    m_open.resize(m_lattice->context().problem->kinds.size() * Lattice::levels * words);
    int widest = 0;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Lattice::KindCells& cells = m_lattice->kind(k);
        const Kind& kind = problem.kinds[k];
        if (!cells.isHere || kind.length > length || m_each[k] <= 0) {
            continue;
        }
        const bool whole = mayWhole && wholeReach >= kind.thickness;
        if (!whole) {
            if ((limits.jointerWidth > 0 && kind.width > limits.jointerWidth) ||
                reachable(model.board(), model.size(), x0, end, kind.width) < kind.thickness) {
                continue;
            }
        }
        Choice choice;
        choice.kind = k;
        choice.cells = &cells;
        choice.isFlush = kind.length == length;
        choice.worth = m_each[k] - (choice.isFlush ? 0 : limits.crosscutCost);
        choice.widest = cells.widths;
        if (kind.isPool && !whole && limits.jointerWidth > 0) {
            choice.widest = static_cast<int>(std::min<Nm>(
                cells.widths, (limits.jointerWidth - kind.width) / std::max<Nm>(1, kind.step) + 1));
        }
        const Nm slide = length - kind.length;
        const int last =
            std::min(m_lattice->cells() - 1, to + static_cast<int>((slide + g - 1) / g));
        collect(cells, m_choices.size(), from, last, byBlock);
        choice.lastStart = last;
        choice.mayRepeat =
            !cells.next.empty() && 2 * kind.length + limits.stripCrosscutKerf <= length;
        widest = std::max(widest, kind.isPool ? cells.footprint + cells.widths * cells.stepCells
                                              : cells.footprint);
        (kind.isPool ? m_free : m_fixed).push_back(m_choices.size());
        m_choices.push_back(choice);
    }
    return widest;
}

void LatticeSection::findChanges() {
    const auto words = static_cast<std::size_t>(m_lattice->words());
    m_changed.assign(words * 64, 0);
    for (const std::size_t slot : m_fixed) {
        const Choice& choice = m_choices[slot];
        const Word bit = Word{1} << (slot % 64);
        for (int level = 0; level < Lattice::levels; ++level) {
            if (level > 0 && !choice.cells->hasLevel[level]) {
                continue;
            }
            const Word* open = openOf(slot, level);
            Word carried = 0;
            for (std::size_t w = 0; w < words; ++w) {
                // Rows of several blanks may be worth more than at the row below all the same.
                Word changed = choice.mayRepeat ? open[w] : open[w] & ~(open[w] << 1 | carried);
                carried = open[w] >> 63;
                for (; changed != 0; changed &= changed - 1) {
                    m_changed[w * 64 + static_cast<std::size_t>(std::countr_zero(changed))] |= bit;
                }
            }
        }
    }
}

void LatticeSection::stackFixed(Choice& choice, std::size_t slot, const Begin& begin) {
    const Lattice::KindCells& cells = *choice.cells;
    for (int level = 0; level < Lattice::levels; ++level) {
        if (level > 0 && !cells.hasLevel[level]) {
            continue;
        }
        const Word* here = openOf(slot, level);
        if (!Lattice::isSet(here, begin.v)) {
            continue;
        }
        if (choice.mayRepeat) {
            stackRow(choice, begin);
        } else if (begin.fresh || !Lattice::isSet(here, begin.v - 1)) {
            reach(begin.v + cells.footprint,
                  begin.worth + choice.worth - m_lattice->levelPrice(level));
        }
        return;
    }
}

void LatticeSection::stackRow(Choice& choice, const Begin& begin) {
    const Lattice::KindCells& cells = *choice.cells;
    const auto v = static_cast<std::size_t>(begin.v);
    const auto along = static_cast<std::size_t>(m_lattice->cells());
    if (choice.rowAt < 0 || choice.rowAt + 1 != begin.v || !cells.isLikeBelow[v]) {
        const std::int16_t* next = cells.next.data() + v * (along + 1);
        choice.rowWorth = 0;
        for (int u = next[begin.from]; u <= choice.lastStart;) {
            choice.rowWorth += choice.worth;
            u = u + cells.length >= m_lattice->cells()
                    ? m_lattice->cells()
                    : next[static_cast<std::size_t>(u + cells.length)];
        }
    }
    choice.rowAt = begin.v;
    reach(begin.v + cells.footprint, begin.worth + choice.rowWorth);
}

void LatticeSection::stackPool(const Choice& choice, const PoolPlace& place, const Begin& begin) {
    const int v = begin.v;
    if (!Lattice::isSet(place.lowOpen.data(), v)) {
        return;
    }
    const Lattice::KindCells& cells = *choice.cells;
    const int most = place.upTo[static_cast<std::size_t>(v)];
    const int first = v + cells.width;
    if (first > most) {
        return;
    }
    const int count =
        std::min(choice.widest,
                 (cells.stepCells == 1 ? most - first : (most - first) / cells.stepCells) + 1);
    if (count <= 0) {
        return;
    }
    const int last = first + (count - 1) * cells.stepCells;
    const int rows = m_lattice->rows();
    if (!begin.fresh && Lattice::isSet(place.lowOpen.data(), v - 1) &&
        place.upTo[static_cast<std::size_t>(v - 1)] >= most &&
        place.shut[static_cast<std::size_t>(std::min(last, rows - 1) + 1)] ==
            place.shut[static_cast<std::size_t>(std::max(0, first - 1))]) {
        return; // one lower down does as well
    }
    const Cost* worth = m_byWidth[choice.kind].data();
    const Cost base =
        begin.worth - (choice.isFlush ? 0 : m_lattice->context().problem->limits.crosscutCost);
    const int rip = cells.footprint - cells.width;
    const bool allOpen = place.shut[static_cast<std::size_t>(last + 1)] ==
                         place.shut[static_cast<std::size_t>(first)];
    if (allOpen && cells.stepCells == 1) {
        Cost* reached = m_stack.data() + first + rip;
        for (int s = 0; s < count; ++s) {
            reached[s] = std::max(reached[s], base + worth[s]);
        }
        return;
    }
    for (int s = 0; s < count; ++s) {
        const int high = first + s * cells.stepCells;
        if (allOpen || Lattice::isSet(place.highOpen.data(), high)) {
            reach(high + rip, base + worth[s]);
        }
    }
}

Cost LatticeSection::worthAt(int from, int to, Nm length, bool byBlock) {
    const int widest = choose(from, to, length, byBlock);
    if (m_choices.empty()) {
        return 0;
    }
    const int rows = m_lattice->rows();
    const Cost rip = m_lattice->context().problem->limits.ripCost;
    m_stack.assign(static_cast<std::size_t>(rows + widest + 2), nothing);
    findChanges();
    Cost below = 0; ///< best of all that ends lower
    for (int v = 0; v < rows; ++v) {
        const Cost touching = m_stack[static_cast<std::size_t>(v)];
        const Cost apart = below - 2 * rip;
        const Begin begin{v, std::max(touching - rip, apart), v == 0 || touching - rip > apart,
                          from};
        below = std::max(below, touching);
        if (begin.fresh) {
            for (const std::size_t slot : m_fixed) {
                stackFixed(m_choices[slot], slot, begin);
            }
        } else {
            for (Word changed = m_changed[static_cast<std::size_t>(v)]; changed != 0;
                 changed &= changed - 1) {
                for (auto slot = static_cast<std::size_t>(std::countr_zero(changed));
                     slot < m_choices.size(); slot += 64) {
                    if (m_choices[slot].cells->poses.empty()) {
                        stackFixed(m_choices[slot], slot, begin);
                    }
                }
            }
        }
        for (const std::size_t slot : m_free) {
            for (std::size_t p = 0; p < m_pools[slot].count; ++p) {
                stackPool(m_choices[slot], m_pools[slot].places[p], begin);
            }
        }
    }
    // What ends above the last row was not passed.
    return std::max(below, *std::max_element(m_stack.begin() + rows, m_stack.end()));
}

} // namespace stavewright::cutting
