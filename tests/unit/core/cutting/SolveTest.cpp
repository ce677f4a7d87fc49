#include "core/cutting/Solve.h"

#include <chrono>
#include <thread>

#include <gtest/gtest.h>

#include "Racks.h"
#include "SolutionChecker.h"

namespace stavewright::cutting::testing {
namespace {

TEST(Solve, EverySolutionHoldsBeforeTheIndependentChecker) {
    for (const JobFamily family : allFamilies) {
        for (const std::uint64_t seed : {1, 2}) {
            const Problem problem =
                makeRack({.family = family, .boards = 6, .seed = seed, .metric = seed == 2});
            int improvements = 0;
            const Solution solution =
                solve(problem, {.seed = seed, .seconds = 0, .work = 3'000'000, .threads = 2}, {},
                      [&](const Solution& better) {
                          ++improvements;
                          for (const std::string& fault : checkSolution(problem, better)) {
                              ADD_FAILURE() << nameOf(family) << " seed " << seed << ": " << fault;
                          }
                      });
            EXPECT_GE(improvements, 1);
            for (const std::string& fault : checkSolution(problem, solution)) {
                ADD_FAILURE() << nameOf(family) << " seed " << seed << ": " << fault;
            }
        }
    }
}

} // namespace
} // namespace stavewright::cutting::testing
