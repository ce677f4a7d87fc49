#pragma once
// What rows are worth by the cell in which they end.

#include <span>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

/// Rows that end in a cell (crosscut included) or before are worth so much at most.
struct RowStep {
    int end;
    Cost value;
};

/// Of steps ascending in both. 0: no row ends so early.
[[nodiscard]] Cost worthUpTo(std::span<const RowStep> steps, int end);
/// The same for a section that ends in cell `end`, with what is left behind the row kept as an
/// offcut, worth so much per cell of length; at least `least` cells of it.
[[nodiscard]] Cost worthWithOffcut(std::span<const RowStep> steps, int end, double perCell,
                                   int least);

} // namespace stavewright::cutting
