#include "CoreCount.h"

#include "core/cutting/CutCost.h"

namespace stavewright::cutting::exact {

Cost countedByCore(const Problem& problem, const Solution& solution, Cost unplaced) {
    const Context context(problem);
    Cost sum = unplaced;
    for (const Pattern& pattern : solution.patterns) {
        const BoardModel model(problem, pattern.board);
        sum += model.board().cost + patternCost(context, model, pattern).total;
    }
    return sum;
}

} // namespace stavewright::cutting::exact
