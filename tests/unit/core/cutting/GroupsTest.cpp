// Kinds that should come from one board: they do where that costs less than it counts. Worked out
// by hand; common practice, no source.

#include "core/cutting/Groups.h"

#include <gtest/gtest.h>

#include <set>

#include "Racks.h"
#include "SolutionChecker.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::testing {
namespace {

Board clear(const std::string& name, Nm length, Cost cost) {
    Board board;
    board.name = name;
    board.outline = box(0, 0, length, 4 * inch);
    board.thinnest = inch;
    board.cost = cost;
    return board;
}

Kind member(Nm length, int demand = 1) {
    Kind kind;
    kind.name = "member";
    kind.length = length;
    kind.width = 4 * inch;
    kind.demand = demand;
    kind.thickness = inch / 2;
    kind.penaltyUnplaced = 10'000'000;
    kind.group = 0;
    return kind;
}

/// 50 in and 35 in fit the 55 in and the 40 in board one each, for 50; or both the board of 100 in,
/// for 55.
Problem pairOrOne(Cost groupApart) {
    Problem problem;
    problem.boards = {clear("1", 55 * inch, 300'000), clear("2", 40 * inch, 200'000),
                      clear("3", 100 * inch, 550'000)};
    problem.kinds = {member(50 * inch), member(35 * inch)};
    problem.limits.crosscutKerf = problem.limits.ripKerf = problem.limits.stripCrosscutKerf =
        inch / 8;
    problem.limits.groupApart = groupApart;
    return problem;
}

Solution solved(const Problem& problem, int threads = 2) {
    const Solution solution =
        solve(problem, {.seed = 1, .seconds = 0, .work = 250'000, .threads = threads}, {});
    for (const std::string& fault : checkSolution(problem, solution)) {
        ADD_FAILURE() << fault;
    }
    return solution;
}

std::set<int> boardsOf(const Solution& solution) {
    std::set<int> boards;
    for (const Pattern& pattern : solution.patterns) {
        boards.insert(pattern.board);
    }
    return boards;
}

TEST(Groups, LandOnOneBoardWhereThatCostsLessThanBeingApartCounts) {
    const Solution together = solved(pairOrOne(100'000));
    EXPECT_EQ(boardsOf(together), std::set<int>{2});
    EXPECT_EQ(together.value, 550'000);
    EXPECT_EQ(together.groupsApart, 0);
}

TEST(Groups, StayApartWhereOneBoardCostsMore) {
    const Solution apart = solved(pairOrOne(30'000));
    EXPECT_EQ(boardsOf(apart), (std::set<int>{0, 1}));
    EXPECT_EQ(apart.value, 530'000);
    EXPECT_EQ(apart.groupsApart, 30'000);
}

TEST(Groups, CountNothingWithoutAWeight) {
    const Solution apart = solved(pairOrOne(0));
    EXPECT_EQ(apart.value, 500'000);
    EXPECT_EQ(apart.groupsApart, 0);
}

TEST(Groups, WhatIsFixedOnABoardDrawsTheRestThere) {
    // One of two lies on the board of 100 in already, which then costs nothing more; the short
    // board would be a little cheaper by itself.
    Problem problem = pairOrOne(100'000);
    problem.kinds = {member(35 * inch, 2)};
    problem.boards[2].cost = 550'000;
    problem.fixed = {{2, 0, {Length(), Length(), Length::inches(35), Length::inches(4)}}};
    const Solution solution = solved(problem);
    EXPECT_EQ(boardsOf(solution), std::set<int>{2});
    EXPECT_EQ(solution.groupsApart, 0);
}

TEST(Groups, OfARackComeTogetherAndTheBoundStaysBelow) {
    for (const std::uint64_t seed : {1, 2, 3}) {
        Problem problem =
            makeRack({.family = allFamilies[0], .boards = 12, .seed = seed, .metric = false});
        // The kind that most boards can hold wholly: the shortest of the fixed ones.
        std::size_t chosen = problem.kinds.size();
        for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
            const Kind& kind = problem.kinds[k];
            if (!kind.isPool && kind.demand > 1 &&
                (chosen == problem.kinds.size() || kind.length < problem.kinds[chosen].length)) {
                chosen = k;
            }
        }
        ASSERT_LT(chosen, problem.kinds.size());
        problem.kinds[chosen].demand = 2;
        problem.kinds[chosen].group = 0;
        problem.limits.groupApart = 1'000'000; // dearer than any board
        const Solution solution =
            solve(problem, {.seed = seed, .seconds = 0, .work = 4'000'000, .threads = 2}, {});
        EXPECT_EQ(solution.groupsApart, 0) << "seed " << seed;
        if (solution.bound) {
            EXPECT_LE(*solution.bound, solution.value - solution.groupsApart);
        }
    }
}

TEST(Groups, GiveTheSameSolutionWhateverTheNumberOfThreads) {
    const Solution one = solved(pairOrOne(100'000), 1);
    const Solution two = solved(pairOrOne(100'000), 2);
    EXPECT_EQ(one.value, two.value);
    EXPECT_EQ(one.work, two.work);
}

TEST(Gathering, IsAskedOnlyWhereAGroupIsApart) {
    const Problem problem = pairOrOne(100'000);
    Random random(1);
    EXPECT_FALSE(gatheringFor(problem, {}, random).has_value());
    const Solution apart = solved(pairOrOne(30'000));
    const auto gathering = gatheringFor(problem, apart.patterns, random);
    ASSERT_TRUE(gathering.has_value());
    EXPECT_EQ(gathering->group, 0);
    EXPECT_LT(gathering->board, problem.boards.size());
    EXPECT_EQ(groupsApart(problem, apart.patterns), 100'000);
}

} // namespace
} // namespace stavewright::cutting::testing
