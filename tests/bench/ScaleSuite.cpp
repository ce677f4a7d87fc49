// Does the time grow in step with the rack? Boards double, and the demand with them. The baselines
// are left out: they try every place and would take longer than what is measured.

#include "LumberTable.h"
#include "Measure.h"
#include "Racks.h"
#include "Suites.h"

namespace stavewright::cutting::bench {

bool runScale(const BenchOptions& options) {
    LumberTable table(options.json);
    for (int s = 0; s < options.seedsOr(3); ++s) {
        const int seed = options.seedBase + s;
        for (const int boards : {50, 100, 200, 400}) {
            const Problem problem = testing::makeRack({.family = testing::JobFamily::Table,
                                                       .boards = boards,
                                                       .seed = static_cast<std::uint64_t>(seed),
                                                       .metric = seed % 2 == 0});
            Measured measured = measureSolve(problem, options, options.secondsOr(60), seed);
            measured.row.suite = "scale";
            measured.row.family = nameOf(testing::JobFamily::Table);
            measured.row.instance = std::to_string(seed);
            table.print(measured.row);
        }
    }
    return table.finish();
}

} // namespace stavewright::cutting::bench
