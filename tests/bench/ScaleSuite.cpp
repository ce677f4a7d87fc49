// Does the time to a proved gap of 3 % grow in step with the rack? Boards double, and the demand
// with them. The baselines are left out: they try every place and would take longer than what is
// measured.

#include <algorithm>
#include <iomanip>
#include <sstream>

#include "LumberTable.h"
#include "Measure.h"
#include "Racks.h"
#include "Slope.h"
#include "Suites.h"

namespace stavewright::cutting::bench {

namespace {

constexpr std::size_t sizesMeasured = 3; // 100, 200 and 400 boards

std::string medianOf(std::vector<double> slopes) {
    if (slopes.empty()) {
        return "-";
    }
    std::sort(slopes.begin(), slopes.end());
    std::ostringstream text;
    text << std::fixed << std::setprecision(2) << slopes[slopes.size() / 2];
    return text.str();
}

} // namespace

bool runScale(const BenchOptions& options) {
    LumberTable table(options.json);
    std::vector<double> firstSlopes;
    std::vector<double> goalSlopes;
    for (int s = 0; s < options.seedsOr(3); ++s) {
        const int seed = options.seedBase + s;
        std::vector<std::pair<double, double>> firstPlans;
        std::vector<std::pair<double, double>> goals;
        for (const int boards : {50, 100, 200, 400}) {
            const Problem problem = testing::makeRack({.family = testing::JobFamily::Table,
                                                       .boards = boards,
                                                       .seed = static_cast<std::uint64_t>(seed),
                                                       .metric = seed % 2 == 0});
            Measured measured = measureSolve(problem, options, options.secondsOr(60), seed);
            measured.row.suite = "scale";
            measured.row.family = nameOf(testing::JobFamily::Table);
            measured.row.instance = std::to_string(seed);
            table.print(measured);
            if (boards >= 100 && measured.row.firstPlan) {
                firstPlans.emplace_back(boards, *measured.row.firstPlan);
            }
            if (boards >= 100 && measured.row.toGoal) {
                goals.emplace_back(boards, *measured.row.toGoal);
            }
        }
        if (const auto slope = slopeOnLogAxes(firstPlans)) {
            firstSlopes.push_back(*slope);
        }
        // Where a size misses the goal the slope of the others would flatter.
        if (const auto slope = slopeOnLogAxes(goals); slope && goals.size() == sizesMeasured) {
            goalSlopes.push_back(*slope);
        }
    }
    table.note("slope on log-log axes from 100 to 400 boards, median of the seeds: time to a gap "
               "of 3 % " +
               medianOf(goalSlopes) + " (" + std::to_string(goalSlopes.size()) +
               " seeds reach it at every size), time to the first plan " + medianOf(firstSlopes));
    return table.finish();
}

} // namespace stavewright::cutting::bench
