// Fewer different widths at the rip fence, for nothing. Worked out by hand; common practice, no
// source.

#include <gtest/gtest.h>

#include <set>

#include "Racks.h"
#include "SolutionChecker.h"
#include "core/cutting/Accounts.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::testing {
namespace {

constexpr Nm sixteenth = inch / 16;

/// One panel of 10 in net from 30 in staves of 2 to 6 in; a quarter of an inch may be too much.
struct TwoStaves : ::testing::Test {
    TwoStaves() {
        for (const char* name : {"1", "2"}) {
            Board board;
            board.name = name;
            board.outline = box(0, 0, 30 * inch, 6 * inch);
            board.thinnest = inch;
            board.cost = 100'000;
            problem.boards.push_back(board);
        }
        Kind pool;
        pool.name = "panel";
        pool.isPool = true;
        pool.length = 30 * inch;
        pool.width = 2 * inch;
        pool.widest = 6 * inch;
        pool.step = sixteenth;
        pool.netWanted = 10 * inch;
        pool.netMost = 10 * inch + inch / 4;
        pool.demand = 1;
        pool.thickness = inch / 2;
        pool.penaltyUnplaced = 10'000'000;
        problem.kinds = {pool};
        problem.limits.ripCost = 1'000;
    }

    [[nodiscard]] Pattern stave(int board, Nm width) const {
        Placed placed;
        placed.rect = {Length(), Length(), Length::inches(30), Length::nanometres(width)};
        PlacedSection section;
        section.x1 = 30 * inch;
        section.frame = sectionFrame(problem.boards[static_cast<std::size_t>(board)], 0, 30 * inch);
        section.strips = {{0, width, {placed}}};
        return {board, {section}};
    }

    static std::multiset<Nm> widthsOf(const Solution& solution) {
        std::multiset<Nm> widths;
        for (const Pattern& pattern : solution.patterns) {
            for (const PlacedSection& section : pattern.sections) {
                for (const PlacedStrip& strip : section.strips) {
                    widths.insert(strip.v1 - strip.v0);
                }
            }
        }
        return widths;
    }

    /// Settled, then evened; the checker agrees before and after.
    [[nodiscard]] Solution evened(const std::vector<Pattern>& patterns) const {
        const Context context(problem);
        std::vector<std::unique_ptr<BoardModel>> models;
        std::vector<const BoardModel*> pointers;
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
            pointers.push_back(models.back().get());
        }
        const Accounts accounts(context, pointers);
        const Solution before = accounts.settle(patterns).solution;
        const Solution after = accounts.evened(before);
        EXPECT_LE(after.value, before.value);
        EXPECT_EQ(after.unplaced, before.unplaced);
        for (const std::string& fault : checkSolution(problem, after)) {
            ADD_FAILURE() << fault;
        }
        return after;
    }

    Problem problem;
};

TEST_F(TwoStaves, AWiderOneGivesUpWhatThePanelHasTooMuch) {
    // 5 1/8 + 5 = 10 1/8: the eighth is spare.
    const Solution solution = evened({stave(0, 5 * inch + 2 * sixteenth), stave(1, 5 * inch)});
    EXPECT_EQ(widthsOf(solution), (std::multiset<Nm>{5 * inch, 5 * inch}));
}

TEST_F(TwoStaves, NotWhereThePanelWouldBecomeTooNarrow) {
    // 5 3/16 + 4 7/8 = 10 1/16: a sixteenth is spare, 5/16 would be needed.
    const Nm wide = 5 * inch + 3 * sixteenth;
    const Nm slim = 5 * inch - 2 * sixteenth;
    EXPECT_EQ(widthsOf(evened({stave(0, wide), stave(1, slim)})), (std::multiset<Nm>{wide, slim}));
}

TEST_F(TwoStaves, NotWhereAnotherPartNeedsTheWidthAnyway) {
    Kind fixed;
    fixed.name = "rail";
    fixed.length = 30 * inch;
    fixed.width = 5 * inch + 2 * sixteenth;
    fixed.demand = 1;
    fixed.thickness = inch / 2;
    fixed.penaltyUnplaced = 10'000'000;
    problem.kinds.push_back(fixed);
    problem.boards.push_back(problem.boards[0]);
    Pattern rail = stave(2, fixed.width);
    rail.sections[0].strips[0].blanks[0].kind = 1;
    const Solution solution = evened({stave(0, fixed.width), stave(1, 5 * inch), rail});
    EXPECT_EQ(widthsOf(solution), (std::multiset<Nm>{5 * inch, fixed.width, fixed.width}));
}

TEST_F(TwoStaves, NotToAWidthThatNoStaveMayHave) {
    // Staves come in sixteenths; the rail is 5 1/32 in wide.
    Kind rail = problem.kinds[0];
    rail.name = "rail";
    rail.isPool = false;
    rail.width = 5 * inch + sixteenth / 2;
    problem.kinds.push_back(rail);
    problem.boards.push_back(problem.boards[0]);
    Pattern third = stave(2, rail.width);
    third.sections[0].strips[0].blanks[0].kind = 1;
    const Solution solution =
        evened({stave(0, 5 * inch + 2 * sixteenth), stave(1, 5 * inch), third});
    EXPECT_EQ(widthsOf(solution), (std::multiset<Nm>{5 * inch, 5 * inch, rail.width}));
}

TEST(EvenWidths, OfRacksAreNoDearerAndHoldBeforeTheChecker) {
    for (const std::uint64_t seed : {1, 2, 3}) {
        const Problem problem =
            makeRack({.family = allFamilies[0], .boards = 6, .seed = seed, .metric = seed == 2});
        Cost last = 0;
        const Solution solution =
            solve(problem, {.seed = seed, .seconds = 0, .work = 1'000'000, .threads = 2}, {},
                  [&](const Solution& better) { last = better.value; });
        EXPECT_LE(solution.value, last);
        for (const std::string& fault : checkSolution(problem, solution)) {
            ADD_FAILURE() << fault;
        }
    }
}

} // namespace
} // namespace stavewright::cutting::testing
