// The exact pricing of one board against complete tables that share nothing with the engine: with
// as many of each blank as the board has room for, limits do not matter.

#include "core/cutting/PlaceMenu.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "PlanTable.h"
#include "SolutionChecker.h"
#include "TinyJobs.h"
#include "core/cutting/Accounts.h"
#include "core/cutting/ClearBoard.h"
#include "core/cutting/CutCost.h"

namespace stavewright::cutting::exact {
namespace {

/// The first board of a tiny job, free, and its blanks, as many as it has room for; nothing when
/// they are too many for the tables.
std::optional<TinyJob> unlimited(std::uint64_t seed) {
    TinyJob job = tinyJob(seed);
    Problem& problem = job.problem;
    problem.boards.resize(1);
    problem.boards[0].cost = 0;
    std::erase_if(problem.kinds, [](const Kind& kind) { return kind.isPool; });
    const BoardModel model(problem, 0);
    double yields = 1;
    for (Kind& kind : problem.kinds) {
        kind.demand = static_cast<int>(model.outlineArea() / static_cast<double>(kind.length) /
                                       static_cast<double>(kind.width));
        yields *= kind.demand + 1;
    }
    if (problem.kinds.empty() || yields > 150) {
        return std::nullopt;
    }
    return job;
}

Values penaltiesOf(const Problem& problem) {
    Values values;
    for (const Kind& kind : problem.kinds) {
        values.each.push_back(kind.penaltyUnplaced);
        values.perMetre.push_back(0);
    }
    return values;
}

} // namespace

TEST(PlaceMenuTest, givesWhatTheCompleteTablesFind) {
    int compared = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const auto job = unlimited(seed);
        if (!job) {
            continue;
        }
        const Problem& problem = job->problem;
        const Values values = penaltiesOf(problem);
        const Context context(problem);
        const BoardModel model(problem, 0);
        const auto menu = PlaceMenu::of(context, model);
        ASSERT_TRUE(menu) << seed;
        std::int64_t work = 0;
        const BoardPricing& pricing = *menu;
        const BoardChoice choice = pricing.best(values, Interrupt({}, 0), work);
        Cost all = 0;
        for (const Kind& kind : problem.kinds) {
            all += kind.demand * kind.penaltyUnplaced;
        }
        EXPECT_EQ(choice.value, all - bestByTables(*GridJob::on(problem, job->unit))) << seed;
        // The pattern is worth what was promised.
        const Pattern pattern = pricing.cut(values, choice);
        const Accounts accounts(context, {&model});
        const Demand yield = accounts.yieldOf(pattern);
        Cost worth = -patternCost(context, model, pattern).total;
        for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
            worth += yield.open[k] * problem.kinds[k].penaltyUnplaced;
        }
        EXPECT_EQ(worth, choice.value) << seed;
        EXPECT_THAT(testing::checkSolution(problem, accounts.settle({pattern}).solution),
                    ::testing::IsEmpty())
            << seed;
        ++compared;
    }
    EXPECT_GE(compared, 20);
}

TEST(PlaceMenuTest, agreesWithTheKnapsacksOnClearBoards) {
    int compared = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        TinyJob job = tinyJob(seed);
        std::erase_if(job.problem.kinds, [](const Kind& kind) { return kind.isPool; });
        for (Board& board : job.problem.boards) {
            for (RuleLayer& layer : board.layers) {
                layer.onA.clear();
                layer.onB.clear();
            }
        }
        const Context context(job.problem);
        const BoardModel model(job.problem, 0);
        const auto clear = ClearBoard::of(context, model);
        const auto menu = PlaceMenu::of(context, model);
        if (!clear || !menu) {
            continue;
        }
        std::vector<Cost> prices;
        for (const ClearItem& item : clear->items()) {
            prices.push_back(
                job.problem.kinds[static_cast<std::size_t>(item.kind)].penaltyUnplaced);
        }
        std::int64_t work = 0;
        const BoardPricing& pricing = *menu;
        EXPECT_EQ(pricing.best(penaltiesOf(job.problem), Interrupt({}, 0), work).value,
                  ClearTables(*clear, prices, work).value())
            << seed;
        ++compared;
    }
    EXPECT_GE(compared, 100);
}

TEST(PlaceMenuTest, keepsClearOfWhatIsTaken) {
    const auto job = unlimited(9);
    ASSERT_TRUE(job);
    const Context context(job->problem);
    const BoardModel model(job->problem, 0);
    const auto menu = PlaceMenu::of(context, model);
    ASSERT_TRUE(menu);
    const std::vector<Stretch> taken = {
        {Length::nanometres(3 * job->unit), Length::nanometres(6 * job->unit)}};
    std::int64_t work = 0;
    const Values values = penaltiesOf(job->problem);
    const BoardChoice choice = menu->bestBeside(taken, values, Interrupt({}, 0), work);
    for (const PlacedSection& section : menu->cut(values, choice).sections) {
        EXPECT_TRUE(isBeside(taken, section.x0, section.x1, job->problem.limits.crosscutKerf));
    }
}

} // namespace stavewright::cutting::exact
