#include "core/cutting/StripRow.h"

#include <algorithm>
#include <limits>

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

Nm floorDiv(Nm a, Nm b) { return a >= 0 ? a / b : -((-a + b - 1) / b); }

std::array<std::int16_t, Lattice::levels> noCode() {
    std::array<std::int16_t, Lattice::levels> code{};
    code.fill(-1);
    return code;
}

} // namespace

StripRow::StripRow(const Lattice& lattice, const StripPlace& place) {
    const std::vector<Kind>& kinds = lattice.context().problem->kinds;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        if (!lattice.kind(k).isHere || kinds[k].width > place.high) {
            continue;
        }
        if (kinds[k].isPool) {
            addPool(lattice, k, place);
        } else {
            addFixed(lattice, k, place);
        }
    }
    m_kinds.shrink_to_fit(); // thousands of them are kept
    m_runs.shrink_to_fit();
}

void StripRow::addRun(std::size_t first, const Run& run) {
    const bool isNone = run.code == noCode();
    if (m_runs.size() == first) {
        if (!isNone) {
            m_runs.push_back(run);
        }
    } else if (run.code != m_runs.back().code) {
        m_runs.push_back(run);
    }
}

void StripRow::addFixed(const Lattice& lattice, std::size_t k, const StripPlace& place) {
    const Lattice::KindCells& cells = lattice.kind(k);
    const Kind& kind = lattice.context().problem->kinds[k];
    const Nm h = lattice.step().across;
    const auto words = static_cast<std::size_t>(lattice.words());
    // Cells of the low edge where the blank lies along the strip's high edge.
    const int upFirst = place.v + static_cast<int>(floorDiv(place.low - kind.width, h));
    const int upLast =
        std::min(lattice.rows() - 1,
                 place.v + static_cast<int>(floorDiv(place.high - kind.width + h - 1, h)));
    const std::size_t first = m_runs.size();
    KindRuns mine{static_cast<std::uint32_t>(k), static_cast<std::uint32_t>(first), 0, 0,
                  kind.width < place.low};
    const auto isOpen = [&](int level, int i) {
        const Lattice::Word* bits = cells.open[level].data() + static_cast<std::size_t>(i) * words;
        if (Lattice::isSet(bits, place.v)) {
            return true;
        }
        for (int m = std::max(upFirst, place.v); m <= upLast; ++m) {
            if (Lattice::isSet(bits, m)) {
                return true;
            }
        }
        return false;
    };
    const int last = cells.lastLevel();
    for (const int i : cells.changes) {
        int level = -1;
        if (isOpen(last, i)) {
            level = 0;
            while (level < last && !isOpen(level, i)) {
                do {
                    ++level;
                } while (!cells.hasLevel[level]);
            }
        }
        Run run{static_cast<std::int16_t>(i), noCode()};
        run.code[0] = static_cast<std::int16_t>(level);
        addRun(first, run);
    }
    mine.last = static_cast<std::uint32_t>(m_runs.size());
    if (mine.last > mine.first) {
        m_kinds.push_back(mine);
    }
}

void StripRow::addPool(const Lattice& lattice, std::size_t k, const StripPlace& place) {
    const Lattice::KindCells& cells = lattice.kind(k);
    const Kind& kind = lattice.context().problem->kinds[k];
    const Nm h = lattice.step().across;
    const Nm widthStep = std::max<Nm>(1, kind.step);
    const auto words = static_cast<std::size_t>(lattice.words());
    const int top =
        std::min(cells.widths - 1, static_cast<int>((place.high - kind.width) / widthStep));
    // Cells in which the strip's high edge may lie.
    const int highFirst = place.v + static_cast<int>(place.low / h);
    const int highLast =
        std::min(lattice.rows() - 1, place.v + static_cast<int>((place.high + h - 1) / h));
    const std::size_t first = m_runs.size();
    KindRuns mine{static_cast<std::uint32_t>(k), static_cast<std::uint32_t>(first), 0,
                  static_cast<std::int16_t>(
                      std::max<Nm>(0, (place.low - kind.width + widthStep - 1) / widthStep)),
                  false};
    for (const int i : cells.changes) {
        Run run{static_cast<std::int16_t>(i), noCode()};
        for (const Lattice::PoolPose& pose : cells.poses) {
            const Lattice::Word* lowOpen =
                pose.cell.lowOpen.data() + static_cast<std::size_t>(i) * words;
            const Lattice::Word* highOpen =
                pose.cell.highOpen.data() + static_cast<std::size_t>(i) * words;
            std::array<const std::int16_t*, Lattice::levels> upTo{};
            for (std::size_t level = 0; level < Lattice::levels; ++level) {
                upTo[level] = pose.cell.upTo.at(level, static_cast<std::size_t>(i));
            }
            // Along the low edge: the widest whose high edge may lie where it does.
            if (Lattice::isSet(lowOpen, place.v)) {
                int s = top;
                for (std::size_t code = Lattice::levels; code-- > 0;) {
                    // What is paid less reaches no higher.
                    const int limit = upTo[code][place.v];
                    const int most = (limit - place.v - cells.width) / cells.stepCells;
                    s = limit < place.v + cells.width ? -1 : std::min(s, most);
                    for (; s >= 0; --s) {
                        const int high = place.v + cells.width + s * cells.stepCells;
                        if (lattice.isHighOpen(cells, highOpen, high)) {
                            break;
                        }
                    }
                    run.code[code] =
                        std::max<std::int16_t>(run.code[code], static_cast<std::int16_t>(s));
                }
            }
            // Along the high edge: the widest whose low edge may lie where it does.
            for (int high = highFirst; high <= highLast; ++high) {
                if (!Lattice::isSet(highOpen, high)) {
                    continue;
                }
                for (int s = top; s > run.code[0]; --s) {
                    const Nm width = kind.width + s * widthStep;
                    const int low = std::max(place.v, high - static_cast<int>((width + h - 1) / h));
                    const int lowLast = high - static_cast<int>(width / h);
                    for (int m = low; m <= lowLast; ++m) {
                        if (!Lattice::isSet(lowOpen, m)) {
                            continue;
                        }
                        for (std::size_t code = 0; code < Lattice::levels; ++code) {
                            if (high <= upTo[code][m]) {
                                run.code[code] = std::max<std::int16_t>(
                                    run.code[code], static_cast<std::int16_t>(s));
                            }
                        }
                    }
                }
            }
        }
        addRun(first, run);
    }
    mine.last = static_cast<std::uint32_t>(m_runs.size());
    if (mine.last > mine.first) {
        m_kinds.push_back(mine);
    }
}

StripRow::Worth StripRow::worthOf(const Lattice& lattice, const BoundPrices& prices,
                                  const KindRuns& runs, const Run& run) const {
    const Problem& problem = *lattice.context().problem;
    const Kind& kind = problem.kinds[runs.kind];
    const Cost rip = problem.limits.ripCost;
    if (!kind.isPool) {
        return run.code[0] < 0 ? Worth{nothing, 0}
                               : Worth{prices.each[runs.kind] - lattice.levelPrice(run.code[0]) -
                                           (runs.isTrimmed ? rip : 0),
                                       kind.width};
    }
    Worth most{nothing, 0};
    for (int level = 0; level < Lattice::levels; ++level) {
        const int s = run.code[static_cast<std::size_t>(level)];
        if (s < 0) {
            continue;
        }
        const Cost worth = prices.byWidth[runs.kind][static_cast<std::size_t>(s)] -
                           lattice.levelPrice(level) - (s < runs.untrimmed ? rip : 0);
        if (worth > most.value) {
            most = {worth, kind.width + s * std::max<Nm>(1, kind.step)};
        }
    }
    return most;
}

} // namespace stavewright::cutting
