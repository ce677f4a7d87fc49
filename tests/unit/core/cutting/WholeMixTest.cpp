// The mixed-integer mixes against complete enumeration of all choices of columns, which needs no
// solver: the reference is counted by hand-written loops over every subset.

#include "core/cutting/WholeMix.h"

#include <limits>
#include <random>
#include <utility>

#include <gtest/gtest.h>

#include "Racks.h"

namespace stavewright::cutting::testing {
namespace {

struct Case {
    Problem problem;
    std::vector<Column> columns;
    Demand demand;
};

Pattern anyPattern(std::size_t board) {
    Pattern pattern;
    pattern.board = static_cast<int>(board);
    pattern.sections.emplace_back();
    return pattern;
}

Case makeCase(std::uint64_t seed) {
    std::mt19937_64 engine(seed);
    const auto between = [&](std::int64_t low, std::int64_t high) {
        return low +
               static_cast<std::int64_t>(engine() % static_cast<std::uint64_t>(high - low + 1));
    };
    Case made;
    for (int b = 0; b < 3; ++b) {
        Board board;
        board.outline = box(0, 0, 100 * inch, 8 * inch);
        board.cost = between(20, 60) * 10'000;
        made.problem.boards.push_back(board);
    }
    for (int k = 0; k < 2; ++k) {
        Kind kind;
        kind.length = 20 * inch;
        kind.width = 3 * inch;
        kind.demand = static_cast<int>(between(1, 5));
        kind.penaltyUnplaced = 2'000'000;
        made.demand.open.push_back(kind.demand);
        made.demand.staves.push_back(0);
        made.demand.fewest.push_back(0);
        made.problem.kinds.push_back(kind);
    }
    for (int c = 0; c < 8; ++c) {
        Column column;
        column.board = static_cast<std::size_t>(between(0, 2));
        column.yield.open = {between(0, 3), between(0, 3)};
        column.yield.staves = {0, 0};
        column.yield.fewest = {0, 0};
        column.cost = made.problem.boards[column.board].cost + between(0, 20) * 1'000;
        made.columns.push_back(column);
    }
    return made;
}

/// The columns of a case with their ids.
std::pair<Columns, std::vector<std::size_t>> columnsOf(const Case& wanted) {
    Columns columns(3);
    std::vector<std::size_t> ids;
    for (const Column& column : wanted.columns) {
        if (columns.add(anyPattern(column.board), column)) {
            ids.push_back(columns.size() - 1);
        }
    }
    return {std::move(columns), std::move(ids)};
}

/// Cost of the best choice, at most one column a board, blanks left over at their penalty.
Cost cheapest(const Case& wanted) {
    Cost best = std::numeric_limits<Cost>::max();
    const unsigned all = 1U << wanted.columns.size();
    for (unsigned subset = 0; subset < all; ++subset) {
        std::vector<int> used(3, 0);
        std::vector<std::int64_t> open = wanted.demand.open;
        Cost cost = 0;
        for (std::size_t c = 0; c < wanted.columns.size(); ++c) {
            if ((subset >> c & 1) != 0) {
                ++used[wanted.columns[c].board];
                cost += wanted.columns[c].cost;
                open[0] -= wanted.columns[c].yield.open[0];
                open[1] -= wanted.columns[c].yield.open[1];
            }
        }
        if (used[0] > 1 || used[1] > 1 || used[2] > 1) {
            continue;
        }
        for (const std::int64_t left : open) {
            cost += std::max<std::int64_t>(0, left) * 2'000'000;
        }
        best = std::min(best, cost);
    }
    return best;
}

TEST(WholeMix, EqualsCompleteEnumeration) {
    const Interrupt never({}, 0);
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const Case wanted = makeCase(seed);
        const Context context(wanted.problem);
        const auto [columns, ids] = columnsOf(wanted);
        Demand open = wanted.demand;
        Cost cost = 0;
        for (const std::size_t id :
             wholeMix(context, columns, ids, wanted.demand, {10'000, 1e12}, never)) {
            cost += columns.column(id).cost;
            open -= columns.column(id).yield;
        }
        for (const std::int64_t left : open.open) {
            cost += std::max<std::int64_t>(0, left) * 2'000'000;
        }
        EXPECT_EQ(cost, cheapest(wanted)) << "seed " << seed;
    }
}

TEST(WholeBoards, AreNeverDearerThanTheBestWholeMixAndKeepBelowTheLimit) {
    const Interrupt never({}, 0);
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const Case wanted = makeCase(seed);
        const Context context(wanted.problem);
        const auto [columns, ids] = columnsOf(wanted);
        const Cost best = cheapest(wanted);
        const std::vector<std::int64_t> dearness(3, 100);
        // A mix in fractions can only be cheaper, so there is one at the best whole cost.
        const std::vector<std::size_t> boards =
            wholeBoards(context, columns, ids, wanted.demand, dearness,
                        {10'000, static_cast<double>(best) + 1}, never);
        Cost cost = 0;
        for (const std::size_t board : boards) {
            cost += wanted.problem.boards[board].cost;
        }
        EXPECT_LE(cost, best) << "seed " << seed;
        // Boards alone cost at least something: below nothing there is no mix.
        EXPECT_TRUE(wholeBoards(context, columns, ids, wanted.demand, dearness, {10'000, -1}, never)
                        .empty());
    }
}

} // namespace
} // namespace stavewright::cutting::testing
