#pragma once
// The best plan from patterns that are known, for classes of equal boards: a mixed-integer
// programme over them, solved by Cbc in a limited number of nodes.
//
//   auto times = wholeStock(penalties, open, boards, columns, {nodes, below}, interrupt);

#include "core/cutting/Interrupt.h"
#include "core/cutting/StockMix.h"
#include "core/cutting/WholeMix.h"

namespace stavewright::cutting {

/// How often each column is taken; together they may make more than is open. Empty when no plan
/// below the limit was found. By kind: cost of leaving one out, and how many are wanted; by class:
/// how many boards there are. Deterministic, except where the interrupt ends it.
[[nodiscard]] std::vector<int> wholeStock(const std::vector<Cost>& penalties,
                                          const std::vector<int>& open,
                                          const std::vector<int>& boards,
                                          const std::vector<const StockColumn*>& columns,
                                          const MixLimits& limits, const Interrupt& interrupt);

} // namespace stavewright::cutting
