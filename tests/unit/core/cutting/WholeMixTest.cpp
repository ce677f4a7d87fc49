// The mixed-integer mixes against complete enumeration of all choices of columns, which needs no
// solver: the reference is counted by hand-written loops over every subset.

#include "core/cutting/WholeMix.h"

#include <limits>
#include <memory>
#include <random>
#include <utility>

#include <gtest/gtest.h>

#include "Racks.h"

namespace stavewright::cutting::testing {
namespace {

struct Case {
    Problem problem;
    std::vector<Column> columns;
    std::vector<Pattern> patterns; ///< of the columns, where they matter
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
    for (std::size_t c = 0; c < wanted.columns.size(); ++c) {
        const Column& column = wanted.columns[c];
        Pattern pattern = wanted.patterns.empty() ? anyPattern(column.board) : wanted.patterns[c];
        if (columns.add(std::move(pattern), column)) {
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
             wholeMix(context, columns, ids, {wanted.demand, nullptr, {}}, {10'000, 1e12}, never)) {
            cost += columns.column(id).cost;
            open -= columns.column(id).yield;
        }
        for (const std::int64_t left : open.open) {
            cost += std::max<std::int64_t>(0, left) * 2'000'000;
        }
        EXPECT_EQ(cost, cheapest(wanted)) << "seed " << seed;
    }
}

/// Two panels of one pool, and columns that give staves for them.
Case makePanels(std::uint64_t seed) {
    std::mt19937_64 engine(seed);
    const auto between = [&](std::int64_t low, std::int64_t high) {
        return low +
               static_cast<std::int64_t>(engine() % static_cast<std::uint64_t>(high - low + 1));
    };
    Case made = makeCase(seed);
    Kind pool;
    pool.isPool = true;
    pool.length = 20 * inch;
    pool.step = inch / 8;
    pool.width = 2 * inch;
    pool.widest = 5 * inch;
    pool.netWanted = between(4, 7) * inch;
    pool.netMost = pool.netWanted + inch / 4;
    pool.fewest = 1;
    pool.most = static_cast<int>(between(2, 3));
    pool.demand = 2;
    pool.penaltyUnplaced = 4'000'000;
    made.problem.kinds = {pool};
    made.columns.clear();
    made.patterns.clear();
    for (int c = 0; c < 6; ++c) {
        Column column;
        column.board = static_cast<std::size_t>(between(0, 2));
        column.yield.open = {0};
        column.yield.staves = {0};
        column.yield.fewest = {0};
        Pattern pattern = anyPattern(column.board);
        for (std::int64_t s = between(1, 2); s > 0; --s) {
            const Nm width = 2 * inch + between(0, 24) * inch / 8;
            PlacedStrip strip;
            Placed blank;
            blank.rect = {Length::nanometres(0), Length::nanometres(0),
                          Length::nanometres(pool.length), Length::nanometres(width)};
            strip.blanks.push_back(blank);
            pattern.sections[0].strips.push_back(strip);
            column.yield.open[0] += width;
            ++column.yield.staves[0];
            ++column.yield.fewest[0];
        }
        column.cost = made.problem.boards[column.board].cost + between(0, 20) * 1'000;
        made.columns.push_back(column);
        made.patterns.push_back(pattern);
    }
    return made;
}

/// Of every way to put the staves into the panels or to leave them, the least that the widths cost
/// that are missing.
double missingCost(const Kind& pool, const std::vector<Nm>& staves) {
    int ways = 1;
    for (std::size_t s = 0; s < staves.size(); ++s) {
        ways *= 3;
    }
    double best = std::numeric_limits<double>::max();
    for (int way = 0; way < ways; ++way) {
        Nm net[3] = {};
        int count[3] = {};
        int rest = way;
        for (const Nm stave : staves) {
            net[rest % 3] += stave;
            ++count[rest % 3];
            rest /= 3;
        }
        double cost = 0;
        for (int p = 0; p < 2; ++p) {
            const bool fits =
                net[p] <= pool.netMost + pool.widest - pool.width && count[p] <= pool.most;
            cost += fits ? static_cast<double>(pool.penaltyUnplaced) *
                               static_cast<double>(std::max<Nm>(0, pool.netWanted - net[p])) /
                               static_cast<double>(pool.netWanted)
                         : 1e15;
        }
        best = std::min(best, cost);
    }
    return best;
}

TEST(WholeMix, StavesComeOutEvenInEveryPanelAsInCompleteEnumeration) {
    const Interrupt never({}, 0);
    int shared = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const Case wanted = makePanels(seed);
        const Kind& pool = wanted.problem.kinds[0];
        const Context context(wanted.problem);
        std::vector<std::unique_ptr<BoardModel>> models;
        std::vector<const BoardModel*> boards;
        for (int b = 0; b < 3; ++b) {
            models.push_back(std::make_unique<BoardModel>(wanted.problem, b));
            boards.push_back(models.back().get());
        }
        const Accounts accounts(context, boards);
        const auto costOf = [&](unsigned subset) {
            std::vector<int> used(3, 0);
            std::vector<Nm> staves;
            double cost = 0;
            for (std::size_t c = 0; c < wanted.columns.size(); ++c) {
                if ((subset >> c & 1) != 0) {
                    ++used[wanted.columns[c].board];
                    cost += static_cast<double>(wanted.columns[c].cost);
                    const std::vector<Nm> own = accounts.netsOf({&wanted.patterns[c], 1}, 0);
                    staves.insert(staves.end(), own.begin(), own.end());
                }
            }
            const bool once = used[0] <= 1 && used[1] <= 1 && used[2] <= 1;
            return once ? cost + missingCost(pool, staves) : 1e15;
        };
        // By the case's numbers; columns that give no more than another are not taken in.
        const auto [columns, ids] = columnsOf(wanted);
        const auto bitOf = [&, &known = columns](std::size_t id) {
            unsigned bit = 0;
            for (std::size_t c = 0; c < wanted.columns.size() && bit == 0; ++c) {
                const bool same = wanted.columns[c].board == known.column(id).board &&
                                  wanted.columns[c].cost == known.column(id).cost &&
                                  wanted.columns[c].yield.open == known.column(id).yield.open;
                bit = same ? 1U << c : 0;
            }
            return bit;
        };
        unsigned takenIn = 0;
        for (const std::size_t id : ids) {
            takenIn |= bitOf(id);
        }
        double best = 1e15;
        for (unsigned subset = 0; subset < 1U << wanted.columns.size(); ++subset) {
            best = (subset & ~takenIn) == 0 ? std::min(best, costOf(subset)) : best;
        }
        unsigned chosen = 0;
        for (const std::size_t id :
             wholeMix(context, columns, ids, {accounts.demand(), &accounts, {}}, {10'000, 1e12},
                      never)) {
            chosen |= bitOf(id);
        }
        EXPECT_NEAR(costOf(chosen), best, 1) << "seed " << seed;
        shared += missingCost(pool, {}) > 0 && best < 4'000'000 ? 1 : 0;
    }
    EXPECT_GE(shared, 20); // panels were closed, not only left out
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
