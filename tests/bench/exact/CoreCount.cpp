#include "CoreCount.h"

#include "core/cutting/CutCost.h"

namespace stavewright::cutting::exact {

Shares sharesOf(const Problem& problem, const Solution& solution) {
    const Context context(problem);
    Shares shares;
    for (const Pattern& pattern : solution.patterns) {
        const BoardModel model(problem, pattern.board);
        const CutCost cost = patternCost(context, model, pattern);
        const Cost cuts =
            cost.crosscuts * problem.limits.crosscutCost + cost.rips * problem.limits.ripCost;
        shares.boards += model.board().cost;
        shares.cuts += cuts;
        shares.fills += cost.total - cuts;
    }
    shares.unplaced = solution.value - shares.boards - shares.cuts - shares.fills;
    return shares;
}

} // namespace stavewright::cutting::exact
