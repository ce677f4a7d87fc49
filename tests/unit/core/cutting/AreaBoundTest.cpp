#include "core/cutting/AreaBound.h"

#include <gtest/gtest.h>

#include "Racks.h"

namespace stavewright::cutting::testing {
namespace {

std::optional<Cost> byArea(const Problem& problem) {
    const Context context(problem);
    std::vector<std::unique_ptr<BoardModel>> boards;
    std::vector<const BoardModel*> models;
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        boards.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
        models.push_back(boards.back().get());
    }
    return boundByArea(context, Accounts(context, models), models);
}

Problem twoBoards(int demand) {
    Problem problem = barsOfAClearBoard(100 * inch, 10 * inch, 20 * inch, 5 * inch, demand);
    problem.kinds.front().penaltyUnplaced = 100'000'000;
    problem.boards.push_back(problem.boards.front());
    problem.boards[0].cost = 300'000;
    problem.boards[1].cost = 500'000;
    return problem;
}

TEST(AreaBound, WhatIsAskedForCostsItsShareOfTheCheapestBoards) {
    // By hand: a bar is 100 of a board's 1000 in^2; five take half the cheap board, fifteen all of
    // it and half the dear one.
    EXPECT_NEAR(static_cast<double>(byArea(twoBoards(5)).value_or(0)), 150'000, 10);
    EXPECT_NEAR(static_cast<double>(byArea(twoBoards(15)).value_or(0)), 550'000, 10);
}

TEST(AreaBound, WhatWouldCostMoreThanItsPenaltyIsLeftOut) {
    Problem problem = twoBoards(5);
    problem.kinds.front().penaltyUnplaced = 10'000;
    EXPECT_LE(byArea(problem).value_or(0), 50'000);
}

TEST(AreaBound, NothingAskedForBoundsNothing) { EXPECT_FALSE(byArea(twoBoards(0)).has_value()); }

} // namespace
} // namespace stavewright::cutting::testing
