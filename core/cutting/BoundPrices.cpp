#include "core/cutting/BoundPrices.h"

#include <algorithm>

namespace stavewright::cutting {

BoundPrices::BoundPrices(const Problem& problem, const Values& values)
    : each(problem.kinds.size(), 0)
    , byWidth(problem.kinds.size()) {
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (!kind.isPool) {
            each[k] = values.of(kind, k, kind.width);
            continue;
        }
        // The demand's worth is rounded once, a panel's staves each: a bound must round them up.
        const auto atLeast = [&](Nm width) { return values.of(kind, k, width) + 1; };
        const Nm step = std::max<Nm>(1, kind.step);
        Nm width = kind.width;
        for (; width <= kind.widest; width += step) {
            byWidth[k].push_back(atLeast(width));
        }
        byWidth[k].push_back(atLeast(width)); // for straight lines to end on
        each[k] = byWidth[k].empty() ? 0 : *std::max_element(byWidth[k].begin(), byWidth[k].end());
    }
}

BoundPrices BoundPrices::less(Cost perBlank) const {
    BoundPrices lower = *this;
    for (std::size_t k = 0; k < each.size(); ++k) {
        lower.each[k] -= perBlank;
        for (Cost& worth : lower.byWidth[k]) {
            worth -= perBlank;
        }
    }
    return lower;
}

Cost BoundPrices::between(std::size_t pool, int first, int last) const {
    // Linear in the width, so the most stands at one end.
    const std::vector<Cost>& worth = byWidth[pool];
    if (worth.empty()) {
        return 0;
    }
    const int most = static_cast<int>(worth.size()) - 1;
    return std::max(worth[static_cast<std::size_t>(std::clamp(first, 0, most))],
                    worth[static_cast<std::size_t>(std::clamp(last, 0, most))]);
}

} // namespace stavewright::cutting
