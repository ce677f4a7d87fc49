// The engine's own way with small jobs against complete tables that share nothing with it.

#include "core/cutting/SmallJob.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "PlanTable.h"
#include "Racks.h"
#include "SolutionChecker.h"
#include "TinyJobs.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::exact {
namespace {

constexpr std::int64_t work = 20'000'000;

/// What solveSmall needs, made as the search makes it.
struct Prepared {
    explicit Prepared(const Problem& problem)
        : context(problem) {
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
            plain.push_back(models.back().get());
        }
        accounts = std::make_unique<Accounts>(context, plain);
    }
    std::optional<SmallPlan> solve(int threads = 1) {
        std::int64_t done = 0;
        return solveSmall(context, plain, accounts->demand(), work, threads, Interrupt({}, 0),
                          done);
    }
    Context context;
    std::vector<std::unique_ptr<BoardModel>> models;
    std::vector<const BoardModel*> plain;
    std::unique_ptr<Accounts> accounts;
};

/// A board of 9 in that one part of 5 in is to be cut from.
Problem onePart(const Polygon& outline, Nm width, Nm thickness) {
    using testing::inch;
    Problem problem;
    Board board;
    board.outline = outline;
    board.thinnest = inch;
    board.cost = 50'000;
    problem.boards = {board};
    Kind kind;
    kind.length = 5 * inch;
    kind.width = width;
    kind.thickness = thickness;
    kind.demand = 1;
    kind.penaltyUnplaced = 1'000'000;
    problem.kinds = {kind};
    return problem;
}

} // namespace

// Worked out by hand: an eighth of bow takes the first third of the board out; from 3 in on it is
// a whole inch thick.
TEST(SmallJobTest, aPartMayHaveToLieBehindTheWarpedEnd) {
    using testing::inch;
    Problem problem = onePart(testing::box(0, 0, 9 * inch, 2 * inch), 2 * inch, 15 * inch / 16);
    problem.boards[0].bow = inch / 8;
    problem.boards[0].warpWhere = 1;
    problem.boards[0].trimAtFar = inch / 2; // nothing to be gained by standing at the far end
    const auto plan = Prepared(problem).solve();
    ASSERT_TRUE(plan);
    EXPECT_EQ(plan->value, 50'000);
    EXPECT_THAT(testing::checkSolution(problem,
                                       Prepared(problem).accounts->settle(plan->patterns).solution),
                ::testing::IsEmpty());
}

// 2 in wide at the datum end and 3 in at the far one: 2 1/4 in are clear from 2 1/4 in on.
TEST(SmallJobTest, aBoardThatWidensIsLeftToTheSearch) {
    using testing::inch;
    const auto at = [](Nm x, Nm y) { return Point{Length::nanometres(x), Length::nanometres(y)}; };
    Problem problem = onePart({at(0, 0), at(9 * inch, 0), at(9 * inch, 3 * inch), at(0, 2 * inch)},
                              9 * inch / 4, inch / 2);
    problem.boards[0].trimAtFar = inch / 2;
    EXPECT_FALSE(Prepared(problem).solve());
    const Solution solution =
        solve(problem, {.seed = 1, .seconds = 0, .work = 100'000, .threads = 1}, {});
    EXPECT_EQ(solution.value, 50'000);
}

TEST(SmallJobTest, costsWhatTheCompleteTablesFind) {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const TinyJob job = tinyJob(seed);
        const auto grid = GridJob::on(job.problem, job.unit);
        ASSERT_TRUE(grid) << seed;
        Prepared prepared(job.problem);
        const auto plan = prepared.solve();
        ASSERT_TRUE(plan) << seed;
        EXPECT_EQ(plan->value, bestByTables(*grid)) << seed;
        const Solution settled = prepared.accounts->settle(plan->patterns).solution;
        EXPECT_EQ(settled.value, plan->value) << seed;
        EXPECT_THAT(testing::checkSolution(job.problem, settled), ::testing::IsEmpty()) << seed;
    }
}

TEST(SmallJobTest, theWholeSearchEndsWithIt) {
    for (std::uint64_t seed = 101; seed <= 110; ++seed) {
        const TinyJob job = tinyJob(seed);
        const auto grid = GridJob::on(job.problem, job.unit);
        ASSERT_TRUE(grid) << seed;
        const Solution solution =
            solve(job.problem, {.seed = 1, .seconds = 0, .work = 0, .threads = 2}, {});
        EXPECT_EQ(solution.value, bestByTables(*grid)) << seed;
    }
}

TEST(SmallJobTest, equalBoardsAndThreadsChangeNothing) {
    TinyJob job = tinyJob(7);
    Problem& problem = job.problem;
    problem.boards.assign(3, problem.boards.front());
    Prepared prepared(problem);
    const auto one = prepared.solve(1);
    const auto two = prepared.solve(2);
    ASSERT_TRUE(one && two);
    EXPECT_EQ(one->value, bestByTables(*GridJob::on(problem, job.unit)));
    EXPECT_EQ(one->value, two->value);
    ASSERT_EQ(one->patterns.size(), two->patterns.size());
    for (std::size_t p = 0; p < one->patterns.size(); ++p) {
        EXPECT_EQ(one->patterns[p].board, two->patterns[p].board);
        EXPECT_EQ(one->patterns[p].sections.size(), two->patterns[p].sections.size());
    }
}

TEST(SmallJobTest, whatIsNotSmallIsLeftToTheSearch) {
    TinyJob job = tinyJob(7);
    job.problem.limits.offcutWorthPercent = 10;
    job.problem.limits.offcutLength = job.unit;
    EXPECT_FALSE(Prepared(job.problem).solve());
    job = tinyJob(7);
    job.problem.kinds[0].demand = 100'000;
    EXPECT_FALSE(Prepared(job.problem).solve());
}

// A panel that can never come out even: one stave is too few, two are too wide.
TEST(SmallJobTest, aPanelTooWideIsNoPanel) {
    const TinyJob job = tinyJob(5243);
    Prepared prepared(job.problem);
    const auto plan = prepared.solve();
    ASSERT_TRUE(plan);
    EXPECT_EQ(plan->value, bestByTables(*GridJob::on(job.problem, job.unit)));
    EXPECT_EQ(prepared.accounts->settle(plan->patterns).solution.value, plan->value);
}

} // namespace stavewright::cutting::exact
