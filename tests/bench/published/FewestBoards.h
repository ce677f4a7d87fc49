#pragma once
// Jobs that ask for the fewest equal boards: each board costs one, leaving a piece out costs more
// than all boards together.

#include "Measure.h"
#include "published/Sheet.h"

namespace stavewright::cutting::bench {

/// Boards that a simple rule needs (shelves, tallest pieces first), so that a plan with everything
/// exists on as many.
[[nodiscard]] int shelfBoards(const Sheet& sheet);

/// Value of the row: boards used, or nothing placed counts as the shelves' number and more.
[[nodiscard]] Row fewestBoards(const Sheet& sheet, const BenchOptions& options, double seconds);

} // namespace stavewright::cutting::bench
