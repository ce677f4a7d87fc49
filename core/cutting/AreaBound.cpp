#include "core/cutting/AreaBound.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/cutting/BoundRanges.h"
#include "core/cutting/JobBound.h"

namespace stavewright::cutting {

namespace {

/// Every kind at so much money per square nanometre, rounded down.
Values pricesPerArea(const Problem& problem, double perArea) {
    Values values;
    for (const Kind& kind : problem.kinds) {
        const double perWidth = perArea * static_cast<double>(kind.length);
        values.each.push_back(
            kind.isPool ? 0 : static_cast<Cost>(perWidth * static_cast<double>(kind.width)));
        values.perMetre.push_back(
            kind.isPool ? static_cast<Cost>(perWidth * static_cast<double>(nanometresPerMetre))
                        : 0);
    }
    return values;
}

/// nm^2 that are open; of panels without their joints.
double areaOpen(const Problem& problem, const Demand& demand) {
    double area = 0;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        const auto open = static_cast<double>(std::max<std::int64_t>(0, demand.open[k]));
        area += open * static_cast<double>(kind.length) *
                (kind.isPool ? 1 : static_cast<double>(kind.width));
    }
    return area;
}

/// What a unit of area costs where the cheapest boards have just enough.
double priceOfTheLast(const std::vector<const BoardModel*>& models, double area) {
    std::vector<std::pair<double, double>> boards; // price per area, area
    for (const BoardModel* model : models) {
        if (model->outlineArea() > 0) {
            boards.emplace_back(static_cast<double>(model->price()) / model->outlineArea(),
                                model->outlineArea());
        }
    }
    std::sort(boards.begin(), boards.end());
    double price = 0;
    for (const auto& [perArea, has] : boards) {
        price = perArea;
        area -= has;
        if (area <= 0) {
            break;
        }
    }
    return price;
}

} // namespace

std::optional<Cost> boundByArea(const Context& context, const Accounts& accounts,
                                const std::vector<const BoardModel*>& models) {
    const double open = areaOpen(*context.problem, accounts.demand());
    if (open <= 0) {
        return std::nullopt;
    }
    const double perArea = priceOfTheLast(models, open);
    JobBound bound(context, accounts, models);
    std::vector<Cost> most;
    for (const BoardModel* model : models) {
        // What is not blank is offcut at best.
        const double best = std::max(perArea, offcutWorth(context, *model));
        most.push_back(static_cast<Cost>(std::ceil(best * model->outlineArea())));
    }
    bound.add(bound.allowed(pricesPerArea(*context.problem, perArea)), std::move(most));
    return bound.linear();
}

} // namespace stavewright::cutting
