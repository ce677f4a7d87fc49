#pragma once
// The best row of blanks along a bar (ClearBoard::isBar) within limits: a knapsack in which each
// blank is a thing of its own. Exact.

#include "core/cutting/ClearBoard.h"

namespace stavewright::cutting {

struct BarFill {
    ClearPattern pattern;
    Cost value = 0; ///< of the blanks less the cuts
};

/// `prices` and `limits` by item.
[[nodiscard]] BarFill fillBar(const ClearBoard& bar, const std::vector<Cost>& prices,
                              const std::vector<int>& limits, std::int64_t& work);

} // namespace stavewright::cutting
