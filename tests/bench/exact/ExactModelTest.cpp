// The exact models of the bench on three jobs whose best plan is worked out by hand.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "CoreCount.h"
#include "PlanModel.h"
#include "PlanTable.h"
#include "Racks.h"
#include "SolutionChecker.h"

namespace stavewright::cutting::exact {
namespace {

constexpr Nm unit = testing::inch;
constexpr Cost dollar = 10'000;

Board board(int length, int width, Cost cost) {
    Board made;
    made.name = "board";
    made.outline = testing::box(0, 0, length * unit, width * unit);
    made.cost = cost;
    made.thinnest = unit;
    made.layers.resize(1);
    return made;
}

Kind part(int length, int width, int demand) {
    Kind made;
    made.name = "part";
    made.length = length * unit;
    made.width = width * unit;
    made.demand = demand;
    made.penaltyUnplaced = 100 * dollar;
    made.zones.push_back({0, false, {false, 0}, {true, 0}, {false, 0}, {true, 0}});
    return made;
}

Problem withOneInchKerfs() {
    Problem problem;
    problem.limits.crosscutKerf = unit;
    problem.limits.ripKerf = unit;
    problem.limits.stripCrosscutKerf = unit;
    problem.limits.crosscutCost = dollar;
    problem.limits.ripCost = 2 * dollar;
    return problem;
}

/// Both models find it, and the plan holds and counts the same for the engine's own count.
void expectOptimum(const Problem& problem, Cost optimum) {
    const auto job = GridJob::on(problem, unit);
    ASSERT_TRUE(job);
    const auto plan = bestByModel(*job);
    ASSERT_TRUE(plan);
    EXPECT_EQ(plan->solution.value, optimum);
    EXPECT_EQ(bestByTables(*job), optimum);
    EXPECT_THAT(testing::checkSolution(problem, plan->solution), ::testing::IsEmpty());
    EXPECT_EQ(sharesOf(problem, plan->solution).unplaced, plan->unplaced);
}

} // namespace

// A board 9 x 5 in for 10 dollars, two parts 4 x 5 in. Length 4 + kerf 1 + 4 = 9 is the whole
// board: as two sections, one shared crosscut (1 dollar) between them and none at the board's ends;
// each section is one strip with both edges ripped (2 rips of 2 dollars each, twice): 10 + 1 + 8
// = 19. As one section, one strip: 2 rips (4 dollars), and one shared crosscut in the strip (the
// second blank begins a kerf behind the first, whose high end costs 1): 10 + 4 + 1 = 15. The least
// is 15.
TEST(ExactModelTest, twoPartsInARowAreRippedAtOnce) {
    Problem problem = withOneInchKerfs();
    problem.boards.push_back(board(9, 5, 10 * dollar));
    problem.kinds.push_back(part(4, 5, 2));
    expectOptimum(problem, 15 * dollar);
}

// A board 8 x 6 in for 10 dollars and a dearer one, 4 x 3 in for 12; one part 4 x 3 in. A knot
// through both faces covers x 3 to 5 of the cheap board at every y below 4. Clear of it the part
// would need three inches of length at either end, and above it there are only two inches: without
// a fill it has no place there. Filling costs 5 dollars once, though the knot shows on both faces:
// section [0, 4], 1 crosscut, 2 rips, 10 + 1 + 4 + 5 = 20. On the dear board it fills the board: no
// crosscut, but both edges are ripped straight: 12 + 4 = 16. The least is 16; when the fill costs
// half a dollar it is 15.5.
TEST(ExactModelTest, aFillIsWeighedAgainstADearerBoard) {
    Problem problem = withOneInchKerfs();
    problem.boards.push_back(board(8, 6, 10 * dollar));
    problem.boards.push_back(board(4, 3, 12 * dollar));
    problem.kinds.push_back(part(4, 3, 1));
    problem.kinds[0].zones.push_back({0, true, {false, 0}, {true, 0}, {false, 0}, {true, 0}});
    const Polygon knot = testing::box(3 * unit, 0, 5 * unit, 4 * unit);
    RuleLayer& layer = problem.boards[0].layers[0];
    layer.onA.push_back({knot, 5 * dollar, true, 1});
    layer.onB.push_back({knot, 5 * dollar, true, 1});
    expectOptimum(problem, 16 * dollar);
    layer.onA[0].fill = dollar / 2;
    layer.onB[0].fill = dollar / 2;
    expectOptimum(problem, 15 * dollar + dollar / 2);
}

// A panel of net width 7 to 8 in from a board 10 x 9 in for 20 dollars, staves 10 in long and 2 to
// 5 in wide, an inch of joint in each: n staves of rough widths w give sum(w) - n net. A knot lies
// across the whole length at y 4 to 5. Below it there is room for rough 4, above it for rough 4:
// net 3 + 3 = 6, too little; as three staves (2 below are 2 + kerf 1 + 1: too wide) no more. So a
// panel that is not complete remains: missing 7 - 6 = 1 of 7 in, at 70 dollars for all of it 10
// dollars. Strips [0, 4] and [5, 9] share no cut by accident only: the kerf of 1 in lies exactly on
// the knot, so they share the rip: 3 rips, 6 dollars; no crosscuts: 20 + 6 + 10 = 36. Leaving all
// out would cost 70, one stave alone 20 + 4 + 40 = 64.
TEST(ExactModelTest, whatAPanelLacksIsPaidInProportion) {
    Problem problem = withOneInchKerfs();
    problem.boards.push_back(board(10, 9, 20 * dollar));
    Kind pool = part(10, 2, 1);
    pool.isPool = true;
    pool.widest = 5 * unit;
    pool.step = unit;
    pool.jointAllowance = unit;
    pool.netWanted = 7 * unit;
    pool.netMost = 8 * unit;
    pool.most = 4;
    pool.penaltyUnplaced = 70 * dollar;
    problem.kinds.push_back(pool);
    problem.boards[0].layers[0].onA.push_back(
        {testing::box(0, 4 * unit, 10 * unit, 5 * unit), std::nullopt, false, 1});
    problem.boards[0].layers[0].onB = problem.boards[0].layers[0].onA;
    expectOptimum(problem, 36 * dollar);
}

TEST(ExactModelTest, whatLiesOffTheGridIsRefused) {
    Problem problem = withOneInchKerfs();
    problem.boards.push_back(board(9, 5, dollar));
    problem.kinds.push_back(part(4, 5, 1));
    EXPECT_TRUE(GridJob::on(problem, unit));
    problem.kinds[0].length += 1;
    EXPECT_FALSE(GridJob::on(problem, unit));
}

} // namespace stavewright::cutting::exact
