// What are free stave widths worth? Each rack is planned twice: with the widths of its panels'
// staves free, and with one width for all staves of a panel, the best of those that divide the
// panel evenly; each of these is planned in full.

#include <algorithm>

#include "Measure.h"
#include "Racks.h"
#include "RowPrinter.h"
#include "Suites.h"

namespace stavewright::cutting::bench {

namespace {

/// The problem with each of its panels made of so many staves of one width; nothing when that is
/// not a width that the staves may have.
std::optional<Problem> withOneWidth(Problem problem, int staves) {
    for (Kind& kind : problem.kinds) {
        if (!kind.isPool) {
            continue;
        }
        const Nm step = std::max<Nm>(1, kind.step);
        const Nm net = (kind.netWanted + staves * step - 1) / (staves * step) * step;
        const Nm width = net + kind.jointAllowance;
        if (staves < kind.fewest || staves > kind.most || width < kind.width ||
            width > kind.widest) {
            return std::nullopt;
        }
        kind.width = kind.widest = width;
        kind.netMost = std::max(kind.netMost, staves * net);
    }
    return problem;
}

int mostStavesOf(const Problem& problem) {
    int most = 0;
    for (const Kind& kind : problem.kinds) {
        most = kind.isPool ? std::max(most, kind.most) : most;
    }
    return most;
}

} // namespace

bool runWidths(const BenchOptions& options) {
    RowPrinter printer(options.json,
                       {column::family(), column::instance(12), column::boards(), column::value(2),
                        column::number("free bf", &Row::touchedBoardFeet, 1),
                        column::published(1, "one width"), column::share("saving", &Row::saving),
                        column::placed(), column::number("staves", &Row::stavesPerPanel, 1),
                        column::number("total s", &Row::total, 1), column::audit()});
    std::vector<double> lumber;
    std::vector<double> money;
    for (const testing::JobFamily family : testing::allFamilies) {
        if (!options.family.empty() && options.family != nameOf(family)) {
            continue;
        }
        for (int s = 0; s < options.seedsOr(3); ++s) {
            const int seed = options.seedBase + s;
            const Problem problem = testing::makeRack({.family = family,
                                                       .boards = options.boards,
                                                       .seed = static_cast<std::uint64_t>(seed),
                                                       .metric = seed % 2 == 0});
            Measured free = measureSolve(problem, options, options.secondsOr(10), seed);
            std::optional<Measured> best;
            int widths = 0;
            for (int staves = 1; staves <= mostStavesOf(problem); ++staves) {
                const auto fixed = withOneWidth(problem, staves);
                if (!fixed) {
                    continue;
                }
                ++widths;
                Measured one = measureSolve(*fixed, options, options.secondsOr(10), seed);
                for (const std::string& fault : one.row.faults) {
                    free.row.faults.push_back("one width: " + fault);
                }
                const bool isWhole = unplacedIn(one.solution) == 0;
                if (isWhole && (!best || one.row.touchedBoardFeet < best->row.touchedBoardFeet)) {
                    best = std::move(one);
                }
            }
            Row& row = free.row;
            row.suite = "widths";
            row.family = nameOf(family);
            row.instance = std::to_string(seed) + " of " + std::to_string(widths);
            if (best && unplacedIn(free.solution) == 0) {
                row.published = best->row.touchedBoardFeet;
                row.saving = 1 - *row.touchedBoardFeet / *best->row.touchedBoardFeet;
                lumber.push_back(*row.saving);
                money.push_back(1 - row.value / best->row.value);
            }
            printer.print(row);
        }
    }
    printer.note("free stave widths against the best single width: less lumber " + spread(lumber) +
                 "; less money than that plan " + spread(money) + " (" +
                 std::to_string(lumber.size()) + " racks where both place all)");
    printer.finish();
    return printer.isSound();
}

} // namespace stavewright::cutting::bench
