#pragma once
// Patterns priced board by board: at the master's duals, until these tell what each blank is worth
// on these boards, and at prices near them.

#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

/// Improves the values by so many rounds of pricing; false when interrupted.
bool generateColumns(SearchState& state, int rounds);

/// Best patterns at prices that are a little off at random; the same number draws the same.
void drawColumns(SearchState& state, std::uint64_t number, int draws);

} // namespace stavewright::cutting
