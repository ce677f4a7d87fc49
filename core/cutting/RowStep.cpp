#include "core/cutting/RowStep.h"

#include <algorithm>

namespace stavewright::cutting {

Cost worthUpTo(std::span<const RowStep> steps, int end) {
    const auto past = std::partition_point(steps.begin(), steps.end(),
                                           [&](const RowStep& step) { return step.end <= end; });
    return past == steps.begin() ? 0 : (past - 1)->value;
}

Cost worthWithOffcut(std::span<const RowStep> steps, int end, double perCell, int least) {
    Cost best = 0;
    for (const RowStep& step : steps) {
        if (step.end > end) {
            break;
        }
        const int left = end - step.end + 1;
        best = std::max(best,
                        step.value + (left >= least ? static_cast<Cost>(perCell * left) + 1 : 0));
    }
    return best;
}

} // namespace stavewright::cutting
