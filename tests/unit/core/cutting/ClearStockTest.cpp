// Equal clear boards: bars against the least number of bins found by trying every subset, boards
// against the complete tables of small jobs.

#include "core/cutting/ClearStock.h"

#include <algorithm>
#include <memory>
#include <optional>

#include <gtest/gtest.h>

#include "Racks.h"
#include "SolutionChecker.h"
#include "core/cutting/ClearFill.h"
#include "core/cutting/Random.h"
#include "core/cutting/SmallJob.h"
#include "core/cutting/Solve.h"
#include "core/cutting/StockWhole.h"

namespace stavewright::cutting::testing {
namespace {

constexpr Nm unit = 10 * millimetre;

/// Boards and accounts of a problem, as the search makes them.
struct Stock {
    explicit Stock(const Problem& problem)
        : context(problem) {
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
            plain.push_back(models.back().get());
        }
        accounts = std::make_unique<Accounts>(context, plain);
    }
    Context context;
    std::vector<std::unique_ptr<BoardModel>> models;
    std::vector<const BoardModel*> plain;
    std::unique_ptr<Accounts> accounts;
};

Kind kindOf(Nm length, Nm width, int demand, Cost penalty) {
    Kind kind;
    kind.length = length;
    kind.width = width;
    kind.demand = demand;
    kind.thickness = inch / 2;
    kind.penaltyUnplaced = penalty;
    return kind;
}

Board boardOf(Nm length, Nm width, Cost cost) {
    Board board;
    board.outline = box(0, 0, length, width);
    board.thinnest = inch;
    board.cost = cost;
    return board;
}

/// Fewest bars of `length` for pieces that each need a kerf to the next, over all subsets.
int fewestBars(const std::vector<int>& pieces, int length, int kerf) {
    const std::size_t all = std::size_t{1} << pieces.size();
    std::vector<char> fits(all, 0);
    for (std::size_t set = 0; set < all; ++set) {
        int sum = -kerf;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            sum += (set >> i & 1) != 0 ? pieces[i] + kerf : 0;
        }
        fits[set] = sum <= length ? 1 : 0;
    }
    std::vector<int> bars(all, 99);
    bars[0] = 0;
    for (std::size_t set = 1; set < all; ++set) {
        for (std::size_t part = set; part > 0; part = (part - 1) & set) {
            if (fits[part] != 0) {
                bars[set] = std::min(bars[set], bars[set ^ part] + 1);
            }
        }
    }
    return bars[all - 1];
}

} // namespace

TEST(ClearStock, BarsAreAsFewAsTheBestOfAllSubsets) {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        Random dice(seed);
        Problem problem;
        const int length = static_cast<int>(dice.between(20, 40));
        const int kerf = static_cast<int>(dice.between(0, 2));
        problem.limits.crosscutKerf = problem.limits.stripCrosscutKerf = kerf * unit;
        std::vector<int> pieces;
        for (int n = 0; n < 10; ++n) {
            const int piece = static_cast<int>(dice.between(5, 19));
            pieces.push_back(piece);
            problem.kinds.push_back(kindOf(piece * unit, 10 * unit, 1, 2'000'000));
        }
        problem.boards.assign(10, boardOf(length * unit, 10 * unit, 10'000));
        const Stock stock(problem);
        ClearStock clear(stock.context, stock.plain, stock.accounts->demand());
        ASSERT_TRUE(clear.isUsable());
        Solution best;
        clear.solve({}, Interrupt({}, 0), [&](std::vector<Pattern> patterns) {
            best = stock.accounts->settle(std::move(patterns)).solution;
        });
        EXPECT_EQ(static_cast<int>(best.patterns.size()), fewestBars(pieces, length, kerf)) << seed;
        EXPECT_TRUE(checkSolution(problem, best).empty()) << seed;
    }
}

TEST(ClearStock, WhatIsProvedIsTheBestOfCompleteTables) {
    int proved = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        Random dice(seed + 100);
        const auto between = [&](int low, int high) {
            return static_cast<int>(dice.between(low, high));
        };
        Problem problem;
        problem.limits.crosscutKerf = problem.limits.stripCrosscutKerf = between(0, 1) * unit;
        problem.limits.ripKerf = between(0, 1) * unit;
        problem.limits.crosscutCost = between(0, 2) * 100;
        problem.limits.ripCost = between(0, 2) * 100;
        problem.boards.assign(3, boardOf(between(9, 12) * unit, between(4, 7) * unit, 9'000));
        for (int kinds = between(2, 3); kinds > 0; --kinds) {
            const int length = between(3, 7);
            const int width = between(2, 4);
            problem.kinds.push_back(kindOf(length * unit, width * unit, between(1, 4),
                                           static_cast<Cost>(length) * width * 1'000));
        }
        const Stock stock(problem);
        ClearStock clear(stock.context, stock.plain, stock.accounts->demand());
        ASSERT_TRUE(clear.isUsable());
        Solution best = stock.accounts->settle({}).solution;
        clear.solve({.work = 60'000}, Interrupt({}, 0), [&](std::vector<Pattern> patterns) {
            best = stock.accounts->settle(std::move(patterns)).solution;
        });
        std::int64_t work = 0;
        const auto small = solveSmall(stock.context, stock.plain, stock.accounts->demand(),
                                      1'000'000'000, 1, Interrupt({}, 0), work);
        ASSERT_TRUE(small) << seed;
        EXPECT_GE(best.value, small->value) << seed;
        ASSERT_TRUE(clear.bound()) << seed;
        EXPECT_LE(*clear.bound(), small->value) << seed;
        if (*clear.bound() == best.value) {
            EXPECT_EQ(best.value, small->value) << seed;
            ++proved;
        }
        EXPECT_TRUE(checkSolution(problem, best).empty()) << seed;
    }
    EXPECT_GE(proved, 10);
}

TEST(ClearStock, TheSameWorkGivesTheSamePlan) {
    Problem problem;
    problem.boards.assign(12, boardOf(100 * unit, 10 * unit, 10'000));
    for (int n = 0; n < 12; ++n) {
        problem.kinds.push_back(kindOf((21 + 3 * n) * unit, 10 * unit, 2, 200'000));
    }
    const auto solved = [&](int threads) {
        return solve(problem, {.seed = 1, .seconds = 0, .work = 50'000, .threads = threads}, {});
    };
    const Solution one = solved(1);
    const Solution two = solved(2);
    EXPECT_EQ(one.value, two.value);
    EXPECT_EQ(one.work, two.work);
    EXPECT_TRUE(checkSolution(problem, one).empty());
}

namespace {

/// A job of many kinds on equal boards whose plans are not proved best at once.
Problem sheets(int kinds, int boards, std::uint64_t seed) {
    Problem problem;
    problem.limits.crosscutKerf = problem.limits.stripCrosscutKerf = unit;
    problem.limits.ripKerf = unit;
    problem.boards.assign(static_cast<std::size_t>(boards),
                          boardOf(240 * unit, 120 * unit, 1'000'000));
    Random dice(seed);
    for (int k = 0; k < kinds; ++k) {
        problem.kinds.push_back(kindOf(dice.between(25, 110) * unit, dice.between(15, 60) * unit,
                                       static_cast<int>(dice.between(1, 3)), 20'000'000));
    }
    return problem;
}

} // namespace

TEST(ClearStock, RoundsOfCuttingAnewAreTheSameOnOneThreadAndOnTwo) {
    const Problem problem = sheets(9, 8, 3);
    const auto solved = [&](int threads) {
        return solve(problem, {.seed = 1, .seconds = 0, .work = 1'000'000, .threads = threads}, {});
    };
    const Solution one = solved(1);
    const Solution two = solved(2);
    EXPECT_EQ(one.value, two.value);
    EXPECT_EQ(one.work, two.work);
    ASSERT_TRUE(one.bound);
    EXPECT_LE(*one.bound, one.value);
    EXPECT_TRUE(checkSolution(problem, one).empty());
}

TEST(ClearStock, MoreKindsThanASearchBuildsWithAreStillPlaced) {
    const Problem problem = sheets(static_cast<int>(ClearFill::mostItems) + 20, 30, 5);
    const Solution plan =
        solve(problem, {.seed = 1, .seconds = 0, .work = 4'000'000, .threads = 1}, {});
    EXPECT_TRUE(checkSolution(problem, plan).empty());
    EXPECT_EQ(std::count(plan.unplaced.begin(), plan.unplaced.end(), 0),
              static_cast<std::ptrdiff_t>(problem.kinds.size()));
}

TEST(ClearStock, NothingIsProvedWhereOffcutsAreWorthSomething) {
    Problem problem = sheets(4, 4, 7);
    problem.limits.offcutWorthPercent = 50;
    problem.limits.offcutLength = problem.limits.offcutWidth = 20 * unit;
    const Stock stock(problem);
    ClearStock clear(stock.context, stock.plain, stock.accounts->demand());
    ASSERT_TRUE(clear.isUsable());
    clear.solve({.work = 100'000, .dives = 2}, Interrupt({}, 0), [](std::vector<Pattern>) {});
    EXPECT_FALSE(clear.bound());
}

TEST(StockWhole, TakesColumnsAsOftenAsIsBest) {
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        Random dice(seed);
        const std::vector<Cost> penalties = {300'000, 200'000};
        const std::vector<int> open = {static_cast<int>(dice.between(1, 5)),
                                       static_cast<int>(dice.between(1, 5))};
        const std::vector<int> boards = {2, 3};
        std::vector<StockColumn> columns(4);
        std::vector<const StockColumn*> offered;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            columns[i].boards = i % 2;
            columns[i].yield = {static_cast<int>(dice.between(0, 3)),
                                static_cast<int>(dice.between(0, 3))};
            columns[i].cost = dice.between(5, 30) * 10'000;
            offered.push_back(&columns[i]);
        }
        const auto costOf = [&](const std::vector<int>& times) -> std::optional<Cost> {
            std::vector<int> missing = open;
            std::vector<int> left = boards;
            Cost cost = 0;
            for (std::size_t i = 0; i < times.size(); ++i) {
                cost += times[i] * columns[i].cost;
                left[columns[i].boards] -= times[i];
                for (std::size_t k = 0; k < missing.size(); ++k) {
                    missing[k] -= times[i] * columns[i].yield[k];
                }
            }
            for (std::size_t k = 0; k < missing.size(); ++k) {
                cost += std::max(0, missing[k]) * penalties[k];
            }
            return left[0] < 0 || left[1] < 0 ? std::nullopt : std::optional(cost);
        };
        Cost best = *costOf({0, 0, 0, 0});
        for (int code = 0; code < 256; ++code) {
            const auto cost = costOf({code & 3, code >> 2 & 3, code >> 4 & 3, code >> 6});
            best = cost ? std::min(best, *cost) : best;
        }
        const std::vector<int> times =
            wholeStock(penalties, open, boards, offered, {1'000, 1e12}, Interrupt({}, 0));
        ASSERT_EQ(times.size(), columns.size()) << seed;
        EXPECT_EQ(costOf(times), best) << seed;
    }
}

} // namespace stavewright::cutting::testing
