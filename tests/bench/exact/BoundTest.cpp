// Bounds against plans that are the best there are, found by ways that share nothing with the
// engine, and against the exact pricing of one board.

#include "core/cutting/BoardBound.h"

#include <gtest/gtest.h>

#include <memory>
#include <random>

#include "PlanTable.h"
#include "TinyJobs.h"
#include "core/cutting/JobBound.h"
#include "core/cutting/PlaceMenu.h"

namespace stavewright::cutting::exact {
namespace {

constexpr BoundGoal thorough{0, 100'000};

/// Prices from a tenth to twice what the kinds' share of the lumber costs.
Values randomValues(const Problem& problem, std::uint64_t seed) {
    std::mt19937_64 engine(seed);
    double cost = 0;
    double area = 0;
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        cost += static_cast<double>(problem.boards[b].cost);
        area += BoardModel(problem, static_cast<int>(b)).outlineArea();
    }
    Values values;
    for (const Kind& kind : problem.kinds) {
        const double times = static_cast<double>(1 + engine() % 20) / 10;
        const double perWidth = times * cost / area * static_cast<double>(kind.length);
        values.each.push_back(
            kind.isPool ? 0 : static_cast<Cost>(perWidth * static_cast<double>(kind.width)));
        values.perMetre.push_back(
            kind.isPool ? static_cast<Cost>(perWidth * static_cast<double>(nanometresPerMetre))
                        : 0);
    }
    return values;
}

} // namespace

TEST(BoundTest, noBoardIsWorthMoreThanItsBound) {
    int compared = 0;
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
        const Problem problem = tinyJob(seed).problem;
        const Context context(problem);
        const BoardModel model(problem, 0);
        const auto menu = PlaceMenu::of(context, model);
        if (!menu) {
            continue;
        }
        const Values values = randomValues(problem, seed);
        const BoardPricing& pricing = *menu;
        const Interrupt interrupt({}, 0);
        std::int64_t work = 0;
        const Cost best = pricing.best(values, interrupt, work).value;
        // However few of its sections have been looked into.
        for (const int looks : {0, 4, 20, thorough.looks}) {
            EXPECT_GE(BoardBound(context, model).most(values, {0, looks}, interrupt, work), best)
                << seed << " after " << looks;
        }
        ++compared;
    }
    EXPECT_GE(compared, 60);
}

TEST(BoundTest, noBestPlanCostsLessThanTheBound) {
    int compared = 0;
    double share = 0;
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
        const TinyJob job = tinyJob(seed);
        const Problem& problem = job.problem;
        const auto grid = GridJob::on(problem, job.unit);
        if (!grid) {
            continue;
        }
        const Cost best = bestByTables(*grid);
        const Context context(problem);
        std::vector<std::unique_ptr<BoardModel>> models;
        std::vector<const BoardModel*> pointers;
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
            pointers.push_back(models.back().get());
        }
        const Accounts accounts(context, pointers);
        JobBound bound(context, accounts, pointers);
        const Interrupt interrupt({}, 0);
        for (std::uint64_t turn = 0; turn < 4; ++turn) {
            const Values values = bound.allowed(randomValues(problem, seed * 10 + turn));
            std::vector<Cost> most;
            for (const auto& model : models) {
                std::int64_t work = 0;
                most.push_back(BoardBound(context, *model).most(values, thorough, interrupt, work));
            }
            bound.add(values, most);
        }
        EXPECT_LE(*bound.linear(), best) << seed;
        const Cost whole = bound.whole(1'000, interrupt).least;
        EXPECT_LE(whole, best) << seed;
        EXPECT_GE(whole, *bound.linear()) << seed;
        share += static_cast<double>(whole) / static_cast<double>(best);
        ++compared;
    }
    ASSERT_GE(compared, 60);
    // A bound that says nothing would hold as well.
    EXPECT_GE(share / compared, 0.3);
}

} // namespace stavewright::cutting::exact
