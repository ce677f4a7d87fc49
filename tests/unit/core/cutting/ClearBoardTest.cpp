// Clear boards: the knapsacks and the fillings within limits against complete tables, which look at
// places and know nothing of clear boards.

#include "core/cutting/ClearBoard.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "SolutionChecker.h"
#include "core/cutting/Accounts.h"
#include "core/cutting/ClearFill.h"
#include "core/cutting/CutCost.h"
#include "core/cutting/Random.h"
#include "core/cutting/SmallJob.h"

namespace stavewright::cutting::testing {
namespace {

constexpr Nm unit = 10 * millimetre;

Problem clearJob(std::uint64_t seed, int most) {
    Random dice(seed * 31 + 5);
    const auto between = [&](int low, int high) {
        return static_cast<int>(dice.between(low, high));
    };
    Problem problem;
    Board board;
    board.outline = box(0, 0, between(9, 16) * unit, between(4, 9) * unit);
    board.thinnest = inch;
    board.trimAtDatum = between(0, 1) * unit;
    board.trimAtFar = between(0, 2) / 2 * unit;
    board.layers.resize(1);
    problem.boards = {board};
    problem.limits.crosscutKerf = between(0, 1) * unit;
    problem.limits.ripKerf = between(0, 1) * unit;
    problem.limits.stripCrosscutKerf = between(0, 1) * unit;
    problem.limits.crosscutCost = between(0, 3) * 100;
    problem.limits.ripCost = between(0, 3) * 100;
    for (int kinds = between(2, 4); kinds > 0; --kinds) {
        Kind kind;
        kind.length = between(2, 7) * unit;
        kind.width = between(1, 4) * unit;
        kind.thickness = inch / 2;
        kind.demand = between(1, most);
        kind.penaltyUnplaced = kind.length / unit * (kind.width / unit) * between(900, 1'300);
        kind.zones.push_back({0, false, {false, 0}, {true, 0}, {false, 0}, {true, 0}});
        problem.kinds.push_back(kind);
    }
    return problem;
}

/// What a single board and its job need besides the problem.
struct Prepared {
    explicit Prepared(const Problem& problem)
        : context(problem)
        , model(problem, 0)
        , accounts(context, {&model}) {}
    Context context;
    BoardModel model;
    Accounts accounts;
};

std::vector<Cost> penaltiesOf(const ClearBoard& board) {
    std::vector<Cost> values;
    for (const ClearItem& item : board.items()) {
        values.push_back(
            board.context().problem->kinds[static_cast<std::size_t>(item.kind)].penaltyUnplaced);
    }
    return values;
}

/// Worth of the blanks less the cuts.
Cost worthOf(const Prepared& prepared, const Pattern& pattern) {
    Cost worth = pattern.sections.empty()
                     ? 0
                     : -patternCost(prepared.context, prepared.model, pattern).total;
    const Demand yield = prepared.accounts.yieldOf(pattern);
    for (std::size_t k = 0; k < yield.open.size(); ++k) {
        worth += yield.open[k] * prepared.context.problem->kinds[k].penaltyUnplaced;
    }
    return worth;
}

} // namespace

TEST(ClearBoard, TheKnapsacksGiveWhatTheyPromise) {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const Problem problem = clearJob(seed, 3);
        const Prepared prepared(problem);
        const auto board = ClearBoard::of(prepared.context, prepared.model);
        ASSERT_TRUE(board) << seed;
        std::int64_t work = 0;
        ClearTables tables(*board, penaltiesOf(*board), work);
        EXPECT_EQ(worthOf(prepared, board->cut(tables.best())), tables.value()) << seed;
    }
}

TEST(ClearBoard, AFloorHidesNothingThatIsWorthMore) {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const Problem problem = clearJob(seed, 3);
        const Prepared prepared(problem);
        const auto board = ClearBoard::of(prepared.context, prepared.model);
        ASSERT_TRUE(board) << seed;
        std::int64_t work = 0;
        const std::vector<Cost> prices = penaltiesOf(*board);
        ClearTables whole(*board, prices, work);
        whole.know(-1'000'000);
        const Cost value = whole.value();
        EXPECT_EQ(ClearTables(*board, prices, work, value - 1).value(), value) << seed;
        const ClearTables above(*board, prices, work, value);
        EXPECT_LE(above.value(), value) << seed;
        // A section that the floor hides, with the best of what it leaves of the board, is worth no
        // more than the floor.
        for (int l = 0; l < static_cast<int>(board->lengths().size()); ++l) {
            const int step = board->lengths()[static_cast<std::size_t>(l)] + board->crosscutKerf();
            const Cost with = whole.section(l) - board->crosscutCost() +
                              whole.sections(board->length() - step) - board->lowEndCut();
            EXPECT_TRUE(above.isKnown(l) || with <= value) << seed;
        }
    }
}

TEST(ClearBoard, AFillWithAFloorFindsWhatIsWorthMoreAndElseProvesTheFloor) {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const Problem problem = clearJob(seed, 2);
        const Prepared prepared(problem);
        const auto board = ClearBoard::of(prepared.context, prepared.model);
        ASSERT_TRUE(board) << seed;
        std::vector<int> limits;
        for (const ClearItem& item : board->items()) {
            limits.push_back(problem.kinds[static_cast<std::size_t>(item.kind)].demand);
        }
        const Interrupt never({}, 0);
        const auto filled = [&](Cost floor) {
            ClearFill fill(*board, penaltiesOf(*board), limits, floor);
            fill.lowerPrices(30, never);
            fill.search(100'000, never);
            EXPECT_TRUE(fill.isProved()) << seed;
            return std::pair(fill.value(), fill.bound());
        };
        const Cost best = filled(0).first;
        ASSERT_GT(best, 0) << seed;
        EXPECT_EQ(filled(best - 1).first, best) << seed;
        EXPECT_EQ(filled(best).second, best) << seed;
        EXPECT_EQ(filled(best + 500).second, best + 500) << seed;
    }
}

TEST(ClearBoard, FillingsWithinLimitsAreTheBestOfCompleteTables) {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const Problem problem = clearJob(seed, 3);
        const Prepared prepared(problem);
        const auto board = ClearBoard::of(prepared.context, prepared.model);
        ASSERT_TRUE(board) << seed;
        Cost all = 0;
        std::vector<int> limits;
        for (const ClearItem& item : board->items()) {
            const Kind& kind = problem.kinds[static_cast<std::size_t>(item.kind)];
            limits.push_back(kind.demand);
        }
        for (const Kind& kind : problem.kinds) {
            all += kind.demand * kind.penaltyUnplaced;
        }
        const Interrupt never({}, 0);
        ClearFill fill(*board, penaltiesOf(*board), limits);
        fill.lowerPrices(30, never);
        fill.search(100'000, never);
        EXPECT_TRUE(fill.isProved()) << seed;
        const Pattern pattern = board->cut(fill.best());
        EXPECT_EQ(worthOf(prepared, pattern), fill.value()) << seed;
        std::int64_t work = 0;
        const auto small = solveSmall(prepared.context, {&prepared.model},
                                      prepared.accounts.demand(), 1'000'000'000, 1, never, work);
        ASSERT_TRUE(small) << seed;
        EXPECT_EQ(all - fill.value(), small->value) << seed;
        const Solution solution = prepared.accounts.settle({pattern}).solution;
        EXPECT_TRUE(checkSolution(problem, solution).empty()) << seed;
        EXPECT_EQ(solution.value, small->value) << seed;
    }
}

TEST(ClearBoard, ABoardWithADefectIsNotClear) {
    Problem problem = clearJob(1, 3);
    problem.boards[0].layers[0].onB.push_back(
        {box(unit, unit, 2 * unit, 2 * unit), std::nullopt, false, 0});
    const Prepared prepared(problem);
    EXPECT_FALSE(ClearBoard::of(prepared.context, prepared.model));
}

} // namespace stavewright::cutting::testing
