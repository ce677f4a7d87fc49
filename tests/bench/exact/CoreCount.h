#pragma once
// The value of a solution as the engine counts it, to see that a model counts the same way.

#include "core/cutting/Problem.h"

namespace stavewright::cutting::exact {

/// Boards, cuts and fills by CutCost; what is unplaced is taken from the caller.
[[nodiscard]] Cost countedByCore(const Problem& problem, const Solution& solution, Cost unplaced);

} // namespace stavewright::cutting::exact
