// Generated racks of one size, every family of jobs, against both baselines.

#include "LumberTable.h"
#include "Measure.h"
#include "Racks.h"
#include "Suites.h"

namespace stavewright::cutting::bench {

bool runRacks(const BenchOptions& options) {
    LumberTable table(options.json);
    table.note("positions: defects' edges, ends and lengths in a row; no grid");
    for (const testing::JobFamily family : testing::allFamilies) {
        if (!options.family.empty() && options.family != nameOf(family)) {
            continue;
        }
        for (int s = 0; s < options.seedsOr(8); ++s) {
            const int seed = options.seedBase + s;
            const bool metric = seed % 2 == 0;
            const Problem problem = testing::makeRack({.family = family,
                                                       .boards = options.boards,
                                                       .seed = static_cast<std::uint64_t>(seed),
                                                       .metric = metric});
            Measured measured = measureSolve(problem, options, options.secondsOr(10), seed);
            addBoardFeetGap(problem, options, options.secondsOr(10), measured);
            addBaselines(problem, measured);
            measured.row.suite = "racks";
            measured.row.family = nameOf(family);
            measured.row.instance = std::to_string(seed) + (metric ? " (mm)" : " (inch)");
            table.print(measured);
        }
    }
    return table.finish();
}

} // namespace stavewright::cutting::bench
