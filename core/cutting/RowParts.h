#pragma once
// Places along a row, finer than a lattice's cells: what blanks take adds up, and so would what
// each is rounded by.

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

struct RowParts {
    static constexpr int ofCell = 8;

    /// That a length takes at least, on a lattice with this step along; the sum of two lengths
    /// takes no fewer than both together.
    [[nodiscard]] static int of(Nm length, Nm step) {
        return static_cast<int>(length * ofCell / step);
    }
    /// The first part of a cell.
    [[nodiscard]] static int begin(int cell) { return cell * ofCell; }
    [[nodiscard]] static int cellOf(int part) { return part / ofCell; }
};

} // namespace stavewright::cutting
