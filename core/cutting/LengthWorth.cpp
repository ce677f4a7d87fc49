#include "core/cutting/LengthWorth.h"

#include <algorithm>
#include <map>

namespace stavewright::cutting {

namespace {

/// Lengths are rounded down to so many parts of a cell.
constexpr Nm partsOfCell = 8;

/// Best worth by nanometre across of blanks in a row, by parts of a cell that they may take.
std::vector<double> bestRows(const Lattice& lattice, const BoundPrices& prices, std::size_t parts) {
    const Problem& problem = *lattice.context().problem;
    const Limits& limits = problem.limits;
    const Nm kerf = std::min(limits.crosscutKerf, limits.stripCrosscutKerf);
    struct Length {
        std::size_t parts;
        double worth;
    };
    std::vector<Length> lengths;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        double most = 0;
        if (lattice.kind(k).isHere) {
            // Each line that a blank covers, and the rip above it, has its share.
            visitWorths(kind, prices, k, [&](Nm width, Cost worth, std::size_t) {
                most = std::max(most, static_cast<double>(worth) /
                                          static_cast<double>(width + limits.ripKerf));
            });
        }
        if (most > 0) {
            lengths.push_back({static_cast<std::size_t>((kind.length + kerf) * partsOfCell /
                                                        lattice.step().along),
                               most});
        }
    }
    std::vector<double> best(parts + 1, 0);
    for (std::size_t p = 1; p <= parts; ++p) {
        best[p] = best[p - 1];
        for (const Length& length : lengths) {
            if (length.parts <= p && length.parts > 0) {
                best[p] = std::max(best[p], best[p - length.parts] + length.worth);
            }
        }
    }
    return best;
}

} // namespace

std::vector<ClearLine> clearLines(const Lattice& lattice, const UsableWood& usable) {
    const int cells = static_cast<int>(usable.size());
    int highest = 0;
    for (const std::vector<WoodRun>& cell : usable) {
        for (const WoodRun& run : cell) {
            highest = std::max<int>(highest, run.from + run.rows);
        }
    }
    std::vector<std::vector<std::pair<int, int>>> byRow(static_cast<std::size_t>(highest));
    for (int i = 0; i < cells; ++i) {
        for (const WoodRun& run : usable[static_cast<std::size_t>(i)]) {
            for (int v = run.from; v < run.from + run.rows; ++v) {
                auto& runs = byRow[static_cast<std::size_t>(v)];
                if (!runs.empty() && runs.back().second == i) {
                    ++runs.back().second;
                } else {
                    runs.emplace_back(i, i + 1);
                }
            }
        }
    }
    std::map<std::vector<std::pair<int, int>>, Nm> alike;
    for (auto& runs : byRow) {
        if (!runs.empty()) {
            alike[std::move(runs)] += lattice.step().across;
        }
    }
    std::vector<ClearLine> lines;
    for (const auto& [runs, across] : alike) {
        ClearLine line;
        line.across = across;
        for (const auto& [from, to] : runs) {
            line.runs.push_back({from, to});
        }
        std::size_t next = 0;
        for (int i = 0; i <= cells; ++i) {
            while (next < line.runs.size() && line.runs[next].to <= i) {
                ++next;
            }
            line.behind.push_back(static_cast<std::int16_t>(next));
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

LengthWorth::LengthWorth(const Lattice& lattice, const std::vector<ClearLine>& lines,
                         const BoundPrices& prices)
    : m_lines(&lines) {
    const Nm step = lattice.step().along;
    const Nm longer = lattice.slack().longer(); // a section can be longer than it is along x
    const auto cells = static_cast<Nm>(lines.empty() ? 0 : lines.front().behind.size() - 1);
    const auto partsOf = [&](Nm count) {
        return static_cast<std::size_t>((count * step + longer) * partsOfCell / step);
    };
    const std::vector<double> best = bestRows(lattice, prices, partsOf(cells));
    for (Nm count = 0; count <= cells; ++count) {
        m_fill.push_back(count == 0 ? 0 : best[partsOf(count)]);
    }
    for (const ClearLine& line : lines) {
        std::vector<double> upTo = {0};
        for (const ClearLine::Run& run : line.runs) {
            upTo.push_back(upTo.back() + fill(run.to - run.from));
        }
        m_upTo.push_back(std::move(upTo));
    }
}

double LengthWorth::fill(int cells) const {
    return cells <= 0 ? 0 : m_fill[static_cast<std::size_t>(cells)];
}

double LengthWorth::of(int first, int last) const {
    const int from = std::max(0, first);
    const int to = std::min(last + 1, static_cast<int>(m_fill.size()) - 1);
    if (to <= from) {
        return 0;
    }
    double worth = 0;
    for (std::size_t l = 0; l < m_lines->size(); ++l) {
        const ClearLine& line = (*m_lines)[l];
        const auto inside = [&](const ClearLine::Run& run) {
            return fill(std::min(run.to, to) - std::max(run.from, from));
        };
        // The runs from the first that ends in the section to the first that goes on behind it.
        const auto a = static_cast<std::size_t>(line.behind[static_cast<std::size_t>(from)]);
        const auto b = static_cast<std::size_t>(line.behind[static_cast<std::size_t>(to)]);
        double here = 0;
        if (a < b) {
            here = inside(line.runs[a]) + m_upTo[l][b] - m_upTo[l][a + 1];
        }
        if (b < line.runs.size()) {
            here += inside(line.runs[b]);
        }
        worth += here * static_cast<double>(line.across);
    }
    return worth;
}

} // namespace stavewright::cutting
