// The bound in board feet: never above what a plan takes that places everything, and what it must
// be where the least can be counted by hand.

#include "core/cutting/LeastLumber.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "SolutionChecker.h"

namespace stavewright::cutting::testing {
namespace {

/// Clear boards 51 in long, each a quarter of an inch wider than the one before, and blanks 10 by
/// 3 in; the wider ones are the cheaper.
Problem clearBoards(int boards, int demand) {
    Problem problem;
    for (int b = 0; b < boards; ++b) {
        Board board;
        board.outline = box(0, 0, 51 * inch, 13 * inch / 2 + b * inch / 4);
        board.boardFeetMillionths = 3'000'000 + b * 1'000'000;
        board.cost = 500'000 - b * 100'000;
        board.thinnest = inch;
        problem.boards.push_back(board);
    }
    Kind kind;
    kind.length = 10 * inch;
    kind.width = 3 * inch;
    kind.demand = demand;
    kind.penaltyUnplaced = 50'000'000;
    problem.kinds.push_back(kind);
    problem.limits.crosscutKerf = inch / 8;
    problem.limits.stripCrosscutKerf = inch / 8;
    problem.limits.ripKerf = inch / 8;
    problem.limits.crosscutCost = 20'000;
    return problem;
}

Options noLimit() {
    Options options;
    options.seconds = 0;
    return options;
}

TEST(LeastLumber, IsNoMoreThanAnyPlanTakes) {
    int compared = 0;
    for (int demand = 3; demand <= 27; demand += 6) {
        Problem problem = clearBoards(3, demand);
        // A second kind, and a knot in every board that only fits in the blanks for money.
        Kind kind = problem.kinds.front();
        kind.length = 16 * inch;
        kind.width = 2 * inch;
        kind.demand = 2;
        kind.zones = {{0, false, {false, 0}, {true, 0}, {false, 0}, {true, 0}}};
        problem.kinds.push_back(kind);
        for (Board& board : problem.boards) {
            board.layers.resize(1);
            board.layers[0].onA.push_back({box(20 * inch, 2 * inch, 22 * inch, 5 * inch), 30'000});
        }
        Options options = noLimit();
        options.work = 400'000;
        const Solution plan = solve(problem, options, {});
        const auto least = leastBoardFeet(problem, options, {});
        ASSERT_TRUE(least);
        EXPECT_GT(*least, 0);
        if (plan.unplaced == std::vector<int>{0, 0}) {
            EXPECT_LE(*least, countSolution(problem, plan).touchedBoardFeetMillionths);
            ++compared;
        }
    }
    EXPECT_GE(compared, 3);
}

TEST(LeastLumber, CountsBoardFeetAndNotMoney) {
    // Either of two boards holds 10. The small one gives 8 for 3 board feet, though it is dearer.
    const auto one = leastBoardFeet(clearBoards(2, 8), noLimit(), {});
    ASSERT_TRUE(one);
    EXPECT_LE(*one, 3'000'000);
    EXPECT_GE(*one, 2'390'000); // 8 of its 10, in fractions
    const auto both = leastBoardFeet(clearBoards(2, 12), noLimit(), {});
    ASSERT_TRUE(both);
    EXPECT_LE(*both, 7'000'000);
    EXPECT_GE(*both, 3'790'000); // and 2 of the other's 10
}

} // namespace
} // namespace stavewright::cutting::testing
