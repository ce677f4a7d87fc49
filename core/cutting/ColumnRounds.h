#pragma once
// Patterns priced board by board at the master's duals, until these tell what each blank is worth
// on these boards.

#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

/// Improves the values by so many rounds of pricing; false when interrupted.
bool generateColumns(SearchState& state, int rounds);

} // namespace stavewright::cutting
