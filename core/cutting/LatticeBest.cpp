#include "core/cutting/LatticeBest.h"

#include <algorithm>
#include <limits>

#include "core/cutting/Solve.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

} // namespace

LatticeBest::LatticeBest(const Lattice& lattice)
    : m_lattice(&lattice) {
    const Problem& problem = *lattice.context().problem;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        if (!lattice.kind(k).isHere) {
            continue;
        }
        // One blank; two in a row; and where one is too short for the machines, a few.
        const Nm kerf = problem.limits.stripCrosscutKerf;
        for (Nm count = 1, length = problem.kinds[k].length;
             length <= lattice.end() - lattice.begin();
             ++count, length += problem.kinds[k].length + kerf) {
            const bool machines = length >= problem.limits.leastFacedLength;
            if (machines) {
                m_lengths.push_back(
                    {length, lattice.cellsOf(length + problem.limits.crosscutKerf)});
            }
            if (machines && count >= 2) {
                break;
            }
        }
    }
    std::sort(m_lengths.begin(), m_lengths.end(),
              [](const Length& a, const Length& b) { return a.length < b.length; });
    m_lengths.erase(
        std::unique(m_lengths.begin(), m_lengths.end(),
                    [](const Length& a, const Length& b) { return a.length == b.length; }),
        m_lengths.end());
}

void LatticeBest::price(const Values& values) {
    const Problem& problem = *m_lattice->context().problem;
    const std::size_t count = problem.kinds.size();
    m_each.assign(count, 0);
    m_byWidth.resize(count);
    m_density.assign(m_lengths.size(), 0);
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
        for (std::size_t c = 0; c < m_lengths.size(); ++c) {
            if (m_lengths[c].length >= kind.length) {
                m_density[c] = std::max(m_density[c], best / static_cast<double>(kind.length));
            }
        }
    }
}

void LatticeBest::collect(const Lattice::KindCells& cells, std::size_t slot, int firstCell,
                          int lastCell, bool byBlock) {
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const auto rows = static_cast<std::size_t>(m_lattice->rows());
    const bool single = !byBlock && firstCell == lastCell;
    const int from = single ? firstCell : firstCell / Lattice::blockCells;
    const int to =
        single ? firstCell : std::min(lastCell / Lattice::blockCells, m_lattice->blocks() - 1);
    if (cells.poses.empty()) {
        for (int level = 0; level < Lattice::levels; ++level) {
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

bool LatticeBest::covers(const PoolPlace& a, const PoolPlace& b) {
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

Cost LatticeBest::worthAt(int from, int to, std::size_t lengthClass, bool byBlock) {
    const Problem& problem = *m_lattice->context().problem;
    const BoardModel& model = m_lattice->model();
    const Limits& limits = problem.limits;
    const Nm g = m_lattice->step().along;
    const Nm length = m_lengths[lengthClass].length;
    const Nm x0 = m_lattice->xOf(from);
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const int rows = m_lattice->rows();

    // What the section covers wherever in [from, to] it begins.
    const Nm sureFrom = std::min(m_lattice->end(), m_lattice->xOf(to + 1));
    const Nm sureTo = std::max(sureFrom, std::min(m_lattice->end(), x0 + length));
    const Nm full = widestBetween(model.edges(), sureFrom, std::min(sureTo, m_lattice->end()));
    const bool mayWhole = limits.jointerWidth == 0 || full <= limits.jointerWidth;
    const Nm end = std::min(m_lattice->end(), x0 + length);
    const Nm wholeReach = mayWhole ? reachable(model.board(), model.size(), x0, end, full) : 0;

    m_choices.clear();
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
        m_choices.push_back(choice);
    }
    if (m_choices.empty()) {
        return 0;
    }

    m_stack.assign(static_cast<std::size_t>(rows + widest + 2), nothing);
    Cost below = 0; ///< best of all that ends lower
    Cost best = 0;
    for (int v = 0; v < rows; ++v) {
        const Cost touching = m_stack[static_cast<std::size_t>(v)];
        const Cost apart = below - 2 * limits.ripCost;
        const bool fresh = v == 0 || touching - limits.ripCost > apart;
        const Cost start = std::max(touching - limits.ripCost, apart);
        below = std::max(below, touching);
        for (std::size_t slot = 0; slot < m_choices.size(); ++slot) {
            const Choice& choice = m_choices[slot];
            const Lattice::KindCells& cells = *choice.cells;
            if (cells.poses.empty()) {
                const Word* open = m_open.data() + slot * Lattice::levels * words;
                for (int level = 0; level < Lattice::levels; ++level) {
                    if (level > 0 && !cells.hasLevel[level]) {
                        continue;
                    }
                    const Word* here = open + static_cast<std::size_t>(level) * words;
                    if (!Lattice::isSet(here, v)) {
                        continue;
                    }
                    if (choice.mayRepeat) {
                        const std::int16_t* next =
                            cells.next.data() +
                            static_cast<std::size_t>(v) *
                                (static_cast<std::size_t>(m_lattice->cells()) + 1);
                        Cost row = 0;
                        for (int u = next[from]; u <= choice.lastStart;) {
                            row += choice.worth;
                            u = u + cells.length >= m_lattice->cells()
                                    ? m_lattice->cells()
                                    : next[static_cast<std::size_t>(u + cells.length)];
                        }
                        Cost& reached = m_stack[static_cast<std::size_t>(v + cells.footprint)];
                        reached = std::max(reached, start + row);
                        best = std::max(best, reached);
                    } else if (fresh || !Lattice::isSet(here, v - 1)) {
                        Cost& reached = m_stack[static_cast<std::size_t>(v + cells.footprint)];
                        const Cost value = start + choice.worth - m_lattice->levelPrice(level);
                        reached = std::max(reached, value);
                        best = std::max(best, value);
                    }
                    break;
                }
                continue;
            }
            for (std::size_t p = 0; p < m_pools[slot].count; ++p) {
                const PoolPlace& place = m_pools[slot].places[p];
                if (!Lattice::isSet(place.lowOpen.data(), v)) {
                    continue;
                }
                const int most = place.upTo[static_cast<std::size_t>(v)];
                const int first = v + cells.width;
                const int count = std::min(choice.widest, (most - first) / cells.stepCells + 1);
                if (first > most || count <= 0) {
                    continue;
                }
                const int last = first + (count - 1) * cells.stepCells;
                if (!fresh && Lattice::isSet(place.lowOpen.data(), v - 1) &&
                    place.upTo[static_cast<std::size_t>(v - 1)] >= most &&
                    place.shut[static_cast<std::size_t>(std::min(last, rows - 1) + 1)] ==
                        place.shut[static_cast<std::size_t>(std::max(0, first - 1))]) {
                    continue; // one lower down does as well
                }
                const std::vector<Cost>& worth = m_byWidth[choice.kind];
                const Cost base = start - (choice.isFlush ? 0 : limits.crosscutCost);
                const int rip = cells.footprint - cells.width;
                const bool allOpen = place.shut[static_cast<std::size_t>(last + 1)] ==
                                     place.shut[static_cast<std::size_t>(first)];
                for (int s = 0; s < count; ++s) {
                    const int high = first + s * cells.stepCells;
                    if (!allOpen && !Lattice::isSet(place.highOpen.data(), high)) {
                        continue;
                    }
                    Cost& reached = m_stack[static_cast<std::size_t>(high + rip)];
                    reached = std::max(reached, base + worth[static_cast<std::size_t>(s)]);
                    best = std::max(best, reached);
                }
            }
        }
    }
    return best;
}

LatticeChain LatticeBest::find(const std::vector<Stretch>& taken, const Values& values,
                               const Interrupt& interrupt, std::int64_t& work) {
    price(values);
    const Limits& limits = m_lattice->context().problem->limits;
    const int cells = m_lattice->cells();
    const std::size_t classes = m_lengths.size();
    const Nm g = m_lattice->step().along;
    LatticeChain chain;
    if (classes == 0) {
        return chain;
    }
    // What a section is worth at most, by length class and cell.
    std::vector<std::vector<Cost>> most(classes,
                                        std::vector<Cost>(static_cast<std::size_t>(cells), 0));
    std::vector<std::vector<char>> known(classes,
                                         std::vector<char>(static_cast<std::size_t>(cells), 0));
    std::vector<double> area(static_cast<std::size_t>(cells) + 1, 0);
    for (int i = 0; i < cells; ++i) {
        area[static_cast<std::size_t>(i) + 1] =
            area[static_cast<std::size_t>(i)] +
            static_cast<double>(m_lattice->heightAt(i)) * static_cast<double>(g);
    }
    std::vector<int> lastCell(classes, -1);
    for (std::size_t c = 0; c < classes; ++c) {
        for (int i = 0; i < cells; ++i) {
            if (m_lattice->xOf(i) + m_lengths[c].length > m_lattice->end()) {
                break;
            }
            lastCell[c] = i;
            if (!isBeside(taken, m_lattice->xOf(i), m_lattice->xOf(i) + m_lengths[c].length,
                          limits.crosscutKerf)) {
                continue; // worth nothing
            }
            const int far = std::min(cells, i + static_cast<int>(m_lengths[c].length / g) + 1);
            most[c][static_cast<std::size_t>(i)] =
                static_cast<Cost>(m_density[c] * (area[static_cast<std::size_t>(far)] -
                                                  area[static_cast<std::size_t>(i)]));
        }
    }
    const std::size_t places = static_cast<std::size_t>(cells) + 1;
    std::vector<Cost> touch(places);    // ends just here
    std::vector<Cost> apart(places);    // ends here or before
    std::vector<int> cameTouch(places); // class of the section that ends just here
    std::vector<int> cameFrom(places);
    std::vector<int> cameApart(places); // place where the best of `apart` ends
    const bool atBoardEnd = m_lattice->begin() == m_lattice->model().size().xBegin;
    for (bool settled = false; !settled;) {
        std::fill(touch.begin(), touch.end(), nothing);
        apart[0] = 0;
        cameApart[0] = -1;
        for (int p = 0; p <= cells; ++p) {
            const auto at = static_cast<std::size_t>(p);
            if (p > 0) {
                apart[at] = apart[at - 1];
                cameApart[at] = cameApart[at - 1];
            }
            if (touch[at] > apart[at]) {
                apart[at] = touch[at];
                cameApart[at] = p;
            }
            if (p == cells) {
                break;
            }
            const Cost joined = touch[at] - limits.crosscutCost;
            const Cost free = apart[at] - (p == 0 && atBoardEnd ? 1 : 2) * limits.crosscutCost;
            const Cost start = std::max(joined, free);
            for (std::size_t c = 0; c < classes; ++c) {
                if (p > lastCell[c]) {
                    continue;
                }
                const Cost value = start + most[c][at];
                const auto end = static_cast<std::size_t>(std::min(cells, p + m_lengths[c].cells));
                if (value > touch[end]) {
                    touch[end] = value;
                    cameTouch[end] = static_cast<int>(c);
                    cameFrom[end] = p;
                }
            }
        }
        work += static_cast<std::int64_t>(static_cast<std::size_t>(cells) * classes / 16);
        if (interrupt.isCalled()) {
            return {};
        }
        chain.worth = apart[static_cast<std::size_t>(cells)];
        chain.sections.clear();
        settled = true;
        for (int p = cameApart[static_cast<std::size_t>(cells)]; p >= 0;) {
            const auto c = static_cast<std::size_t>(cameTouch[static_cast<std::size_t>(p)]);
            const int i = cameFrom[static_cast<std::size_t>(p)];
            const auto cell = static_cast<std::size_t>(i);
            if (known[c][cell] < 2) {
                settled = false;
                work += m_lattice->rows();
                if (known[c][cell] == 0) {
                    const int first = i / Lattice::blockCells * Lattice::blockCells;
                    const int last = std::min(cells - 1, first + Lattice::blockCells - 1);
                    const Cost worth = worthAt(first, last, c, true);
                    for (int j = first; j <= last; ++j) {
                        const auto other = static_cast<std::size_t>(j);
                        most[c][other] = std::min(most[c][other], worth);
                        known[c][other] = std::max<char>(known[c][other], 1);
                    }
                } else {
                    most[c][cell] = std::min(most[c][cell], worthAt(i, i, c, false));
                    known[c][cell] = 2;
                }
            }
            chain.sections.push_back({m_lattice->xOf(i), m_lengths[c].length, most[c][cell]});
            const Cost joined = touch[cell] - limits.crosscutCost;
            const Cost free = apart[cell] - (i == 0 && atBoardEnd ? 1 : 2) * limits.crosscutCost;
            p = joined >= free ? i : cameApart[cell];
        }
    }
    std::reverse(chain.sections.begin(), chain.sections.end());
    return chain;
}

} // namespace stavewright::cutting
