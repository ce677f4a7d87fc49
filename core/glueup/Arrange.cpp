#include "core/glueup/Arrange.h"

#include <algorithm>

#include "core/glueup/ExactOrder.h"
#include "core/glueup/OrderSearch.h"

namespace stavewright::glueup {

bool isAllowed(const Scoring& scoring, const Order& order) {
    if (static_cast<int>(order.size()) != scoring.staves()) {
        return false;
    }
    std::vector<bool> seen(order.size());
    for (int place = 0; place < scoring.staves(); ++place) {
        const Placed placed = order[static_cast<std::size_t>(place)];
        if (placed.stave < 0 || placed.stave >= scoring.staves() ||
            seen[static_cast<std::size_t>(placed.stave)] || !scoring.mayStand(placed, place)) {
            return false;
        }
        seen[static_cast<std::size_t>(placed.stave)] = true;
    }
    return true;
}

Arrangement arrange(const ArrangeProblem& problem, const Order& given, const ArrangeLimits& limits,
                    const std::stop_token& stop) {
    const Scoring scoring(problem);
    Arrangement result;
    result.order = isAllowed(scoring, given) ? given : firstOrder(scoring);
    int most = 0;
    for (const PanelWish& panel : problem.panels) {
        most = std::max(most, panel.staves);
    }
    const bool canBeExact = most <= mostExactStaves;
    SearchLimits search{limits.seed, limits.moves, 12};
    if (canBeExact) { // a good beginning makes the proof short
        search.moves = std::min<std::int64_t>(limits.moves, 10'000 * scoring.staves());
        search.beginnings = 2;
    }
    result.order = searchOrder(scoring, result.order, search, stop);
    if (canBeExact) {
        const ExactResult exact = exactOrder(scoring, result.order, limits.work, stop);
        result.order = exact.order;
        result.proved = exact.isProved ? Proved::Best : Proved::BestFound;
    }
    result.score = scoring.score(result.order);
    result.stoppedEarly = stop.stop_requested();
    return result;
}

} // namespace stavewright::glueup
