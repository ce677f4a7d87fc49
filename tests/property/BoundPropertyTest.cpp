// No bound is above what can really be cut: pattern by pattern under any prices, and as money
// against plans of whole jobs that passed the independent checker.

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "SolutionChecker.h"
#include "core/cutting/BoardMenu.h"
#include "core/cutting/CutCost.h"
#include "core/cutting/PlaceMenu.h"
#include "core/cutting/Solve.h"
#include "tests/property/CuttingJobs.h"
#include "tests/property/ProvedValue.h"

namespace stavewright::cutting::property {
namespace {

constexpr std::int64_t workPerPlan = 60'000;

/// What a pattern is worth under these prices, counted blank by blank.
Cost worthOf(const Engine& engine, const BoardModel& model, const Values& values,
             const Pattern& pattern) {
    Cost worth = -patternCost(engine.context, model, pattern).total;
    for (const PlacedSection& section : pattern.sections) {
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& placed : strip.blanks) {
                const auto k = static_cast<std::size_t>(placed.kind);
                worth += values.of(engine.problem->kinds[k], k, placed.rect.width().inNanometres());
            }
        }
    }
    return worth;
}

/// One pattern alone is a plan that leaves out the rest: only what is said of the board counts, not
/// that the demand does not add up.
void isSound(const Problem& problem, const Pattern& pattern) {
    Solution solution;
    solution.patterns = {pattern};
    for (const std::string& fault : testing::checkSolution(problem, solution)) {
        RC_LOG() << fault << '\n';
        RC_ASSERT(fault.rfind("board", 0) != 0);
    }
}

RC_GTEST_PROP(Bound, noPatternOfABoardIsWorthMore, ()) {
    const Problem problem = *smallRack();
    const Engine engine(problem);
    const Interrupt never({}, 0);
    const BoardModel& model = *engine.models.front();
    const Values values = anyPrices(problem, *rc::gen::inRange<std::uint64_t>(0, 1'000'000));
    const int looks = *rc::gen::element(0, 5, 50, 400);
    std::int64_t work = 0;
    BoardBound bound(engine.context, model);
    const Cost most = bound.most(values, {0, looks}, never, work);
    const BoundChain chain = bound.restsOn(never, work);
    RC_LOG() << describe(problem) << "at most " << most << " after " << looks << " looks\n";
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        RC_LOG() << "price " << values.each[k] << ' ' << values.perMetre[k] << '\n';
    }
    const auto holds = [&](const Pattern& pattern, const char* from) {
        if (pattern.sections.empty()) {
            return;
        }
        isSound(problem, pattern);
        const Cost worth = worthOf(engine, model, values, pattern);
        RC_LOG() << from << " finds " << worth << '\n';
        RC_ASSERT(worth <= most);
    };
    RC_ASSERT(most >= 0); // nothing need be cut
    BoardMenu menu(engine.context, model, Fineness::usual());
    holds(menu.cut(values, menu.best(values, never, work)), "the menu");
    menu.widen(chain.sections);
    holds(menu.cut(values, menu.best(values, never, work)), "the menu shown the bound's sections");
    if (const auto exact = PlaceMenu::of(engine.context, model)) {
        const BoardPricing& pricing = *exact;
        holds(pricing.cut(values, pricing.best(values, never, work)), "exact pricing");
    }
}

RC_GTEST_PROP(Bound, noSectionAnywhereIsWorthMore, ()) {
    const Problem problem = *smallRack();
    const Engine engine(problem);
    const Interrupt never({}, 0);
    const BoardModel& model = *engine.models.front();
    const Values values = anyPrices(problem, *rc::gen::inRange<std::uint64_t>(0, 1'000'000));
    std::int64_t work = 0;
    const Cost most = BoardBound(engine.context, model).most(values, {0, 400}, never, work);
    Fineness fineness = Fineness::fine();
    fineness.placesPerSection = 60;
    for (const Stretch& stretch : model.freeStretches()) {
        const Nm begin = stretch.from.inNanometres();
        const Nm end = stretch.to.inNanometres();
        for (int turn = 0; turn < 4; ++turn) {
            const Nm x0 = begin + (end - begin) / 1000 * *rc::gen::inRange(0, 700);
            const Nm x1 = x0 + (end - x0) / 1000 * *rc::gen::inRange(300, 1001);
            if (x1 - x0 < std::max(engine.context.shortest, problem.limits.leastFacedLength)) {
                continue;
            }
            const SectionMenu menu(engine.context, model, x0, x1, fineness);
            const SectionChoice choice = menu.best(values, work);
            if (choice.isEmpty) {
                continue;
            }
            const Pattern pattern{0, {menu.cut(values, choice)}};
            isSound(problem, pattern);
            const Cost worth = worthOf(engine, model, values, pattern);
            RC_LOG() << describe(problem) << "at most " << most << ", but from " << x0 << " to "
                     << x1 << " finds " << worth << '\n';
            RC_ASSERT(worth <= most);
        }
    }
}

RC_GTEST_PROP(Bound, noAuditedPlanCostsLess, ()) {
    const Problem problem = *smallRack();
    const Engine engine(problem);
    const auto seed = *rc::gen::inRange<std::uint64_t>(1, 1'000'000);
    const Solution plan =
        solve(problem, {.seed = seed, .seconds = 0, .work = workPerPlan, .threads = 1}, {});
    RC_LOG() << describe(problem);
    const std::vector<std::string> faults = testing::checkSolution(problem, plan);
    for (const std::string& fault : faults) {
        RC_LOG() << fault << '\n';
    }
    RC_ASSERT(faults.empty());
    const Cost value = plan.value - plan.groupsApart;
    const Cost bound = engine.bound(4, seed, 100);
    RC_LOG() << "plan " << value << ", bound " << bound << ", its own " << plan.bound.value_or(0)
             << '\n';
    RC_CLASSIFY(bound * 2 > value, "bound above half the plan");
    RC_ASSERT(bound <= value);
    RC_ASSERT(plan.bound.value_or(0) <= value);
}

} // namespace
} // namespace stavewright::cutting::property
