#include "core/cutting/Solve.h"

#include <chrono>
#include <ctime>
#include <thread>

#include <gtest/gtest.h>

#include "Racks.h"
#include "SolutionChecker.h"

namespace stavewright::cutting::testing {
namespace {

Problem clearBoard(Nm length, Nm width) {
    Problem problem;
    Board board;
    board.name = "1";
    board.outline = box(0, 0, length, width);
    board.thinnest = inch;
    board.cost = 100'000;
    problem.boards = {board};
    return problem;
}

Kind plainKind(Nm length, Nm width, int demand) {
    Kind kind;
    kind.name = "part";
    kind.length = length;
    kind.width = width;
    kind.demand = demand;
    kind.thickness = inch / 2;
    kind.penaltyUnplaced = 1'000'000;
    return kind;
}

int placedIn(const Solution& solution) {
    int count = 0;
    for (const Pattern& pattern : solution.patterns) {
        for (const PlacedSection& section : pattern.sections) {
            for (const PlacedStrip& strip : section.strips) {
                count += static_cast<int>(strip.blanks.size());
            }
        }
    }
    return count;
}

Solution solved(const Problem& problem, std::int64_t work = 30'000) {
    const Solution solution =
        solve(problem, {.seed = 1, .seconds = 0, .work = work, .threads = 2}, {});
    for (const std::string& fault : checkSolution(problem, solution)) {
        ADD_FAILURE() << fault;
    }
    return solution;
}

TEST(Solve, OneBoardGivesOneEachOfSeveralKindsAlike) {
    // Common practice, no source: three plies of 30 x 6 in lie one behind the other on 96 x 8 in.
    Problem problem = clearBoard(96 * inch, 8 * inch);
    for (int i = 0; i < 3; ++i) {
        problem.kinds.push_back(plainKind(30 * inch, 6 * inch, 1));
    }
    problem.limits.crosscutKerf = problem.limits.ripKerf = problem.limits.stripCrosscutKerf =
        inch / 8;
    const Solution solution = solved(problem);
    EXPECT_EQ(placedIn(solution), 3)
        << solution.value << " work " << solution.work << " sections "
        << (solution.patterns.empty() ? 0 : solution.patterns[0].sections.size());
}

TEST(Solve, WithoutBoardsEverythingIsUnplaced) {
    Problem problem;
    problem.kinds = {plainKind(22 * inch, 3 * inch, 2)};
    const Solution solution = solved(problem, 10'000);
    EXPECT_TRUE(solution.patterns.empty());
    EXPECT_EQ(solution.unplaced, (std::vector<int>{2}));
}

TEST(Solve, TwoKindsThatLieSideBySideAreBothPlacedBesideAFixedBlank) {
    // Two bars of 14 x 3 in lie one above the other on a clear board of 26 x 8 in, while another
    // bar stays where it is on a board of its own and offcuts are worth something.
    Problem problem = clearBoard(26 * inch, 8 * inch);
    problem.boards.push_back(problem.boards.front());
    problem.kinds = {plainKind(22 * inch, 3 * inch, 1), plainKind(14 * inch, 3 * inch, 1),
                     plainKind(14 * inch, 3 * inch, 1)};
    problem.limits.crosscutKerf = problem.limits.ripKerf = problem.limits.stripCrosscutKerf =
        inch / 8;
    problem.limits.offcutLength = 12 * inch;
    problem.limits.offcutWidth = 3 * inch;
    problem.limits.offcutWorthPercent = 30;
    Fixed fixed;
    fixed.rect = {Length::inches(1), Length(), Length::inches(23), Length::inches(3)};
    problem.fixed = {fixed};
    const Solution solution = solved(problem, 100'000);
    EXPECT_EQ(solution.unplaced, (std::vector<int>{0, 0, 0}));
}

TEST(Solve, EverySolutionHoldsBeforeTheIndependentChecker) {
    for (const JobFamily family : allFamilies) {
        for (const std::uint64_t seed : {1, 2}) {
            const Problem problem =
                makeRack({.family = family, .boards = 6, .seed = seed, .metric = seed == 2});
            int improvements = 0;
            Cost last = 0;
            const Solution solution =
                solve(problem, {.seed = seed, .seconds = 0, .work = 2'000'000, .threads = 2}, {},
                      [&](const Solution& better) {
                          EXPECT_TRUE(improvements == 0 || better.value < last);
                          last = better.value;
                          ++improvements;
                          for (const std::string& fault : checkSolution(problem, better)) {
                              ADD_FAILURE() << nameOf(family) << " seed " << seed << ": " << fault;
                          }
                      });
            EXPECT_GE(improvements, 1);
            EXPECT_EQ(solution.value, last);
            for (const std::string& fault : checkSolution(problem, solution)) {
                ADD_FAILURE() << nameOf(family) << " seed " << seed << ": " << fault;
            }
        }
    }
}

// Worked example F5: n equal parts in a length are floor((L + k) / (p + k)).
TEST(Solve, KerfDecidesHowManyPartsALengthGives) {
    struct Case {
        Nm part, kerf;
        int count;
    };
    for (const Case& example : {Case{16 * inch, inch / 8, 5}, Case{127 * inch / 8, inch / 8, 6},
                                Case{127 * inch / 8, 5 * inch / 32, 5}}) {
        Problem problem = clearBoard(96 * inch, 4 * inch);
        problem.limits.crosscutKerf = example.kerf;
        problem.limits.stripCrosscutKerf = example.kerf;
        problem.limits.ripKerf = example.kerf;
        problem.kinds = {plainKind(example.part, 4 * inch, 10)};
        EXPECT_EQ(placedIn(solved(problem)), example.count);
    }
}

TEST(Solve, RipKerfDecidesHowManyStripsAWidthGives) {
    Problem problem = clearBoard(40 * inch, 8 * inch);
    problem.limits.ripKerf = inch / 8;
    problem.kinds = {plainKind(40 * inch, 2 * inch, 10)};
    EXPECT_EQ(placedIn(solved(problem)), 3);
    problem.limits.ripKerf = 0;
    EXPECT_EQ(placedIn(solved(problem)), 4);
}

TEST(Solve, APanelIsMadeUpFromFreeWidthsAndItsLastStaveTrimmed) {
    Problem problem = clearBoard(90 * inch, 7 * inch);
    problem.limits.ripKerf = inch / 8;
    problem.limits.crosscutKerf = inch / 8;
    Kind pool = plainKind(40 * inch, 3 * inch, 1);
    pool.isPool = true;
    pool.widest = 6 * inch;
    pool.step = inch / 16;
    pool.jointAllowance = inch / 8;
    pool.netWanted = 12 * inch + inch / 2;
    pool.netMost = 12 * inch + 3 * inch / 4;
    pool.most = 4;
    problem.kinds = {pool};
    const Solution solution = solved(problem);
    EXPECT_EQ(solution.unplaced[0], 0);
    Nm net = 0;
    for (const PlacedSection& section : solution.patterns.at(0).sections) {
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& placed : strip.blanks) {
                net += placed.rect.width().inNanometres() - pool.jointAllowance;
            }
        }
    }
    EXPECT_GE(net, pool.netWanted);
    EXPECT_LE(net, pool.netMost);
}

TEST(Solve, ABowedBoardReachesItsThicknessOnlyInShortSections) {
    Problem problem = clearBoard(96 * inch, 6 * inch);
    problem.boards[0].bow = inch / 2;
    Kind longPart = plainKind(90 * inch, 3 * inch, 1);
    longPart.thickness = inch * 3 / 4;
    Kind shortPart = plainKind(30 * inch, 3 * inch, 2);
    shortPart.thickness = inch * 3 / 4;
    problem.kinds = {longPart, shortPart};
    const Solution solution = solved(problem);
    EXPECT_EQ(solution.unplaced[0], 1);
    EXPECT_EQ(solution.unplaced[1], 0);
}

TEST(Solve, ACuppedBoardIsRippedBeforeItIsFaced) {
    Problem problem = clearBoard(40 * inch, 9 * inch);
    problem.boards[0].cup = inch * 3 / 8;
    Kind part = plainKind(38 * inch, 4 * inch, 2);
    part.thickness = inch * 3 / 4;
    problem.kinds = {part};
    const Solution solution = solved(problem);
    EXPECT_EQ(solution.unplaced[0], 0);
    EXPECT_TRUE(solution.patterns.at(0).sections.at(0).roughRippedFirst);
}

TEST(Solve, ABoardWiderThanTheJointerIsNeverFacedWhole) {
    Problem problem = clearBoard(40 * inch, 9 * inch);
    problem.limits.jointerWidth = 8 * inch;
    problem.kinds = {plainKind(38 * inch, 4 * inch, 2)};
    const Solution solution = solved(problem);
    EXPECT_EQ(solution.unplaced[0], 0);
    EXPECT_TRUE(solution.patterns.at(0).sections.at(0).roughRippedFirst);
}

TEST(Solve, AnotherMaterialGivesNothing) {
    Problem problem = clearBoard(40 * inch, 9 * inch);
    problem.boards[0].material = 1;
    problem.kinds = {plainKind(38 * inch, 4 * inch, 1)};
    const Solution solution = solved(problem);
    EXPECT_EQ(solution.unplaced[0], 1);
    EXPECT_TRUE(solution.patterns.empty());
}

TEST(Solve, FixedBlanksKeepTheirPlaceAndCountTowardsTheDemand) {
    Problem problem = clearBoard(60 * inch, 4 * inch);
    problem.limits.crosscutKerf = inch / 8;
    problem.kinds = {plainKind(19 * inch, 4 * inch, 3)};
    Fixed fixed;
    fixed.rect = {Length::inches(20), Length(), Length::inches(39), Length::inches(4)};
    problem.fixed = {fixed};
    const Solution solution = solved(problem);
    EXPECT_EQ(solution.unplaced[0], 0);
    EXPECT_EQ(placedIn(solution), 2);
}

TEST(Solve, AForbiddenKnotIsCutAroundAndAFillIsPaidOnlyWhenItPays) {
    Problem problem = clearBoard(60 * inch, 4 * inch);
    problem.limits.crosscutKerf = inch / 8;
    Block knot;
    knot.region = box(24 * inch, inch, 26 * inch, 3 * inch);
    problem.boards[0].layers.resize(1);
    problem.boards[0].layers[0].onA = {knot};
    Kind part = plainKind(24 * inch, 4 * inch, 2);
    part.zones = {{0, false, {false, 0}, {true, 0}, {false, 0}, {true, 0}}};
    part.mayFaceOver = false;
    problem.kinds = {part};
    EXPECT_EQ(solved(problem).unplaced[0], 0); // 0 to 24 and from 26 on
    problem.kinds[0].length = 29 * inch;
    EXPECT_EQ(solved(problem).unplaced[0], 1);
    problem.boards[0].layers[0].onA[0].fill = 20'000;
    const Solution filled = solved(problem);
    EXPECT_EQ(filled.unplaced[0], 0);
    EXPECT_EQ(countSolution(problem, filled).fills, 20'000);
    problem.boards[0].layers[0].onA[0].fill.reset();
    problem.kinds[0].mayFaceOver = true; // the other face is clear
    EXPECT_EQ(solved(problem).unplaced[0], 0);
}

TEST(Solve, TheSameWorkGivesTheSamePlanOnOneThreadAndOnTwo) {
    const Problem problem = makeRack({.family = JobFamily::Benches, .boards = 6, .seed = 5});
    const auto run = [&](int threads) {
        return solve(problem, {.seed = 7, .seconds = 0, .work = 4'000'000, .threads = threads}, {});
    };
    const Solution one = run(1);
    const Solution two = run(2);
    EXPECT_EQ(one.value, two.value);
    EXPECT_EQ(one.work, two.work);
    ASSERT_EQ(one.patterns.size(), two.patterns.size());
    for (std::size_t p = 0; p < one.patterns.size(); ++p) {
        EXPECT_EQ(one.patterns[p].board, two.patterns[p].board);
        ASSERT_EQ(one.patterns[p].sections.size(), two.patterns[p].sections.size());
        for (std::size_t s = 0; s < one.patterns[p].sections.size(); ++s) {
            const PlacedSection& a = one.patterns[p].sections[s];
            const PlacedSection& b = two.patterns[p].sections[s];
            EXPECT_EQ(a.x0, b.x0);
            EXPECT_EQ(a.x1, b.x1);
            ASSERT_EQ(a.strips.size(), b.strips.size());
            for (std::size_t t = 0; t < a.strips.size(); ++t) {
                ASSERT_EQ(a.strips[t].blanks.size(), b.strips[t].blanks.size());
                for (std::size_t i = 0; i < a.strips[t].blanks.size(); ++i) {
                    EXPECT_EQ(a.strips[t].blanks[i].rect, b.strips[t].blanks[i].rect);
                    EXPECT_EQ(a.strips[t].blanks[i].kind, b.strips[t].blanks[i].kind);
                }
            }
        }
    }
}

TEST(Solve, StopsWithinATenthOfASecond) {
    const Problem problem = makeRack({.family = JobFamily::Chest, .boards = 60, .seed = 1});
    std::stop_source stop;
    Progress progress;
    progress.stop = stop.get_token();
    std::clock_t stopped = 0;
    std::jthread stopper([&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(1500));
        stopped = std::clock();
        stop.request_stop();
    });
    const Solution solution =
        solve(problem, {.seed = 1, .seconds = 0, .work = 0, .threads = 2}, progress);
    const std::clock_t ended = std::clock();
    stopper.join();
    // Processor time of both threads, so that other work on the machine does not count.
    const double seconds = static_cast<double>(ended - stopped) / CLOCKS_PER_SEC / 2;
    EXPECT_LT(seconds, 0.1);
    for (const std::string& fault : checkSolution(problem, solution)) {
        ADD_FAILURE() << fault;
    }
}

} // namespace
} // namespace stavewright::cutting::testing
