#include "app/Choices.h"

#include <algorithm>
#include <iomanip>
#include <iostream>

#include <nlohmann/json.hpp>

#include "core/choices/Comparison.h"
#include "core/units/QuantityText.h"

namespace stavewright::app {

using choices::Alternative;
using choices::Alternatives;

Result<Alternatives> alternativesTo(const PlannedJob& job, const PlanCommand& command) {
    // What the plan is looked for beside is the job as it was read; its plan is given besides.
    std::optional<Result<Alternatives>> found;
    withSignals([&](const Progress& progress) {
        found = choices::findAlternatives(
            job.document, {.each = command.options, .cheapest = job.outcome.plan}, progress);
    });
    return std::move(*found);
}

void take(const Alternatives& found, choices::Aim aim, PlannedJob& job) {
    for (const Alternative& alternative : found.plans) {
        if (std::find(alternative.bestAt.begin(), alternative.bestAt.end(), aim) !=
            alternative.bestAt.end()) {
            job.outcome.plan = alternative.plan;
            job.document.plan = alternative.plan;
            job.document.nextId = std::max(job.document.nextId, largestId(alternative.plan) + 1);
            job.audit = audit(job.document);
        }
    }
}

nlohmann::json reportOf(const Alternatives& found, const PlannedJob& job) {
    nlohmann::json plans = nlohmann::json::array();
    for (const Alternative& alternative : found.plans) {
        nlohmann::json aims = nlohmann::json::array();
        for (const choices::Aim aim : alternative.bestAt) {
            aims.push_back(keyOf(aim));
        }
        const PlanFigures& figures = alternative.figures;
        plans.push_back({{"best_at", aims},
                         {"cost", figures.cost.toDouble()},
                         {"board_feet_used", figures.lumber.toDouble()},
                         {"boards_used", figures.boards},
                         {"knots_on_show", figures.knotsOnShow},
                         {"set_ups", figures.setUps.total()},
                         {"set_ups_by_saw",
                          {{"rip", figures.setUps.ripWidths},
                           {"rough_rip", figures.setUps.roughRipWidths},
                           {"strip_crosscut", figures.setUps.stopLengths}}},
                         {"unplaced", figures.missing},
                         {"against_the_first", alternative.against},
                         {"audit", "pass"},
                         {"taken", alternative.plan.boards == job.outcome.plan.boards}});
    }
    return plans;
}

void print(const Alternatives& found, const PlannedJob& job) {
    const JobInfo& info = job.document.info;
    std::cout << "\nPlans side by side (set-ups: different widths at the fences and lengths at the "
                 "stop):\n";
    for (const Alternative& alternative : found.plans) {
        const PlanFigures& figures = alternative.figures;
        std::cout << "  " << titleOf(alternative)
                  << (alternative.plan.boards == job.outcome.plan.boards ? " (taken)" : "") << '\n'
                  << "    " << formatMoney(figures.cost, info.currency) << ", "
                  << lumberText(figures.lumber, info.units) << ", "
                  << choices::countedNoun(figures.knotsOnShow, "knot", "knots") << " on show, "
                  << choices::countedNoun(figures.setUps.total(), "set-up", "set-ups") << '\n';
        if (!alternative.against.empty()) {
            std::cout << "    " << alternative.against << '\n';
        }
    }
    if (found.stoppedEarly) {
        std::cout << "Stopped before all were looked for.\n";
    }
}

Result<choices::DemandCosts> demandsOf(const PlannedJob& job, const PlanCommand& command) {
    constexpr int share = 4;
    choices::DemandWish wish{.each = command.options};
    wish.each.seconds /= share;
    wish.each.work = wish.each.work > 0 ? std::max<std::int64_t>(1, wish.each.work / share) : 0;
    std::optional<Result<choices::DemandCosts>> costs;
    withSignals([&](const Progress& progress) {
        costs = choices::demandCosts(job.document, wish, progress);
    });
    return std::move(*costs);
}

nlohmann::json reportOf(const choices::DemandCosts& costs) {
    nlohmann::json demands = nlohmann::json::array();
    for (const choices::DemandCost& cost : costs.costs) {
        demands.push_back({{"eased", cost.relaxation.words},
                           {"saves", cost.saves.toDouble()},
                           {"saves_board_feet", cost.savesLumber.toDouble()},
                           {"places_more", cost.placesMore},
                           {"within_noise", cost.isWithinNoise},
                           {"sentence", cost.sentence},
                           {"doubt", cost.doubt}});
    }
    return {{"tried", costs.tried},
            {"to_try", costs.toTry},
            {"noise", costs.noise.toDouble()},
            {"costs", demands}};
}

void print(const choices::DemandCosts& costs, const PlannedJob& job) {
    std::cout << "\nWhat each requirement costs (each eased alone and planned again; "
              << choices::countedNoun(static_cast<std::int64_t>(costs.tried), "requirement",
                                      "requirements")
              << " tried):\n";
    for (const choices::DemandCost& cost : costs.costs) {
        std::cout << "  " << cost.sentence << (cost.doubt.empty() ? "" : " ") << cost.doubt << '\n';
    }
    if (costs.costs.empty()) {
        std::cout << "  None of them saves anything.\n";
    }
    std::cout << "  Two searches of the job as it stands differ by "
              << formatMoney(costs.noise, job.document.info.currency) << ".\n";
    if (costs.stoppedEarly()) {
        std::cout << "Stopped before all were tried.\n";
    }
}

Result<choices::WhyHere> whyOf(const PlannedJob& job, const PlanCommand& command) {
    const std::optional<BlankId> blank = choices::blankLabelled(job.document, command.why);
    if (!blank) {
        return Error{ErrorCode::BadInput,
                     "The plan has no blank labelled \"" + command.why +
                         "\"; labels are as on the wood, like R2 or T1-3.",
                     command.job};
    }
    std::optional<Result<choices::WhyHere>> why;
    withSignals([&](const Progress& progress) {
        why = choices::whyHere(job.document, *blank, command.options, progress);
    });
    return std::move(*why);
}

} // namespace stavewright::app
