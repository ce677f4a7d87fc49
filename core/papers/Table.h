#pragma once
// Rows of cells at fixed places across a column; each cell is cut to its width rather than run into
// the next.

#include "core/papers/Flow.h"

namespace stavewright::papers {

struct Column {
    Length from; ///< left edge, from the left of the flow's column
    Length width;
    Align align = Align::Left;
};

struct Cell {
    std::string text;
    double points = 10;
    Weight weight = Weight::Regular;
};

/// One row; cells beyond the columns are dropped.
[[nodiscard]] FlowRow tableRow(const std::vector<Column>& columns, std::vector<Cell> cells);
/// The same in small grey type, kept with the row after it.
[[nodiscard]] FlowRow tableHead(const std::vector<Column>& columns,
                                const std::vector<std::string>& titles);

} // namespace stavewright::papers
