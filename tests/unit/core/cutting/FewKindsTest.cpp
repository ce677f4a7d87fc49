#include "core/cutting/FewKinds.h"

#include <set>

#include <gtest/gtest.h>

#include "Racks.h"
#include "SolutionChecker.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::testing {
namespace {

Problem ofManyKinds(JobFamily family = JobFamily::Chest, int boards = 12) {
    return withManyKinds(makeRack({.family = family, .boards = boards, .seed = 3}), 1, 3);
}

TEST(FewKinds, TheFamiliesOfTheBenchHaveFewAndJobsOfManyPiecesMany) {
    EXPECT_FALSE(areMany(makeRack({.family = JobFamily::Chest, .boards = 24, .seed = 1})));
    EXPECT_TRUE(areMany(ofManyKinds()));
}

TEST(FewKinds, FewAreAllTaken) {
    const Problem problem = makeRack({.family = JobFamily::Chest, .boards = 12, .seed = 1});
    Random random(1);
    const std::vector<std::size_t> drawn =
        drawKinds(problem, std::vector<double>(problem.kinds.size(), 1), random);
    EXPECT_EQ(drawn.size(), problem.kinds.size());
}

TEST(FewKinds, OfManyADrawTakesLongAndShortOnesAndThoseThatAreWorthMostSurely) {
    const Problem problem = ofManyKinds();
    const std::size_t count = problem.kinds.size();
    ASSERT_GT(count, 24U);
    std::vector<double> worth(count, 1);
    worth[7] = 100;
    worth[9] = 0;
    std::vector<Nm> lengths;
    for (const Kind& kind : problem.kinds) {
        lengths.push_back(kind.length);
    }
    std::sort(lengths.begin(), lengths.end());
    Random random(5);
    std::set<std::size_t> all;
    for (int time = 0; time < 100; ++time) {
        const std::vector<std::size_t> drawn = drawKinds(problem, worth, random);
        EXPECT_GE(drawn.size(), 9U);
        EXPECT_LE(drawn.size(), 11U);
        EXPECT_TRUE(std::is_sorted(drawn.begin(), drawn.end()));
        EXPECT_EQ(std::count(drawn.begin(), drawn.end(), 7U), 1);
        EXPECT_EQ(std::count(drawn.begin(), drawn.end(), 9U), 0);
        const auto isShort = [&](std::size_t k) {
            return problem.kinds[k].length <= lengths[count / 3];
        };
        const auto isLong = [&](std::size_t k) {
            return problem.kinds[k].length >= lengths[2 * count / 3];
        };
        EXPECT_TRUE(std::any_of(drawn.begin(), drawn.end(), isShort));
        EXPECT_TRUE(std::any_of(drawn.begin(), drawn.end(), isLong));
        all.insert(drawn.begin(), drawn.end());
    }
    EXPECT_EQ(all.size(), count - 1); // each has its turn
}

TEST(FewKinds, ABoardIsNotAskedForWhatItCannotGive) {
    Problem problem = ofManyKinds();
    problem.kinds[0].material = 1;        // another species
    problem.kinds[1].length = 240 * inch; // longer than any board
    problem.kinds[2].width = 24 * inch;   // wider
    const BoardModel model(problem, 0);
    const std::vector<double> worth =
        worthOn(problem, model, std::vector<double>(problem.kinds.size(), 1));
    for (const std::size_t k : {0U, 1U, 2U}) {
        EXPECT_EQ(worth[k], 0);
    }
    EXPECT_EQ(worth[4], 1);
}

TEST(FewKinds, AJobThatAsksForAFewKnowsNoOthers) {
    const Problem problem = ofManyKinds();
    const FewKinds few(problem, {2, 5});
    ASSERT_EQ(few.problem.kinds.size(), problem.kinds.size());
    for (const BlankPose& pose : few.context.poses) {
        EXPECT_TRUE(pose.kind == 2 || pose.kind == 5);
    }
    EXPECT_EQ(few.context.shortest, std::min(problem.kinds[2].length, problem.kinds[5].length));
}

TEST(FewKinds, JobsOfManyKindsArePlannedWholeAndBounded) {
    for (const JobFamily family : {JobFamily::Chest, JobFamily::Table}) {
        const Problem problem = ofManyKinds(family);
        const Solution solution =
            solve(problem, {.seed = 1, .seconds = 0, .work = 20'000'000, .threads = 2}, {});
        for (const std::string& fault : checkSolution(problem, solution)) {
            ADD_FAILURE() << fault;
        }
        for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
            EXPECT_EQ(solution.unplaced[k], 0) << problem.kinds[k].name;
        }
        ASSERT_TRUE(solution.bound.has_value());
        EXPECT_LE(*solution.bound, solution.value);
    }
}

TEST(FewKinds, TheNumberOfThreadsMakesNoDifference) {
    const Problem problem = ofManyKinds(JobFamily::Chest, 6);
    const auto planned = [&](int threads) {
        return solve(problem, {.seed = 2, .seconds = 0, .work = 25'000'000, .threads = threads},
                     {});
    };
    const Solution one = planned(1);
    const Solution two = planned(2);
    EXPECT_EQ(one.value, two.value);
    EXPECT_EQ(one.bound, two.bound);
    EXPECT_EQ(one.work, two.work);
}

} // namespace
} // namespace stavewright::cutting::testing
