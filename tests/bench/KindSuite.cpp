// Jobs of many sizes: racks on which no more than a few blanks are alike, down to none.

#include "LumberTable.h"
#include "Measure.h"
#include "Racks.h"
#include "Suites.h"

namespace stavewright::cutting::bench {

bool runKinds(const BenchOptions& options) {
    LumberTable table(options.json);
    for (const testing::JobFamily family : testing::allFamilies) {
        if (!options.family.empty() && options.family != nameOf(family)) {
            continue;
        }
        for (int s = 0; s < options.seedsOr(1); ++s) {
            const auto seed = options.seedBase + s;
            const Problem rack = testing::makeRack({.family = family,
                                                    .boards = options.boards,
                                                    .seed = static_cast<std::uint64_t>(seed)});
            for (const int alike : {4, 2, 1}) {
                const Problem problem =
                    testing::withManyKinds(rack, alike, static_cast<std::uint64_t>(seed));
                Measured measured = measureSolve(problem, options, options.secondsOr(10), seed);
                addBaselines(problem, measured);
                measured.row.suite = "kinds";
                measured.row.family = nameOf(family);
                measured.row.instance =
                    std::to_string(seed) + ": " + std::to_string(problem.kinds.size());
                table.print(measured);
            }
        }
    }
    return table.finish();
}

} // namespace stavewright::cutting::bench
