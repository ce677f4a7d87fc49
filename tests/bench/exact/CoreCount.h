#pragma once
// What makes up the value of a solution, counted with the engine's own CutCost: to see that a model
// counts the same way, and where two plans of one job differ.

#include "core/cutting/Problem.h"

namespace stavewright::cutting::exact {

struct Shares {
    Cost boards = 0;
    Cost cuts = 0;
    Cost fills = 0;
    Cost unplaced = 0; ///< the rest of the solution's value
};

[[nodiscard]] Shares sharesOf(const Problem& problem, const Solution& solution);

} // namespace stavewright::cutting::exact
