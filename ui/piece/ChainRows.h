#pragma once
// "Why this size?": the sums of a part's blanks from the finished size back to rough, a row for
// each stage with the three sizes after it.

#include <QString>

#include <optional>
#include <vector>

#include "core/milling/BlankSpec.h"

namespace stavewright::ui {

struct ChainRow {
    QString stage;
    /// By Dimension; set where the stage changes that dimension, and in the first row.
    std::array<std::optional<Length>, 3> added;
    std::array<Length, 3> after;
};

/// Of the part's first spec (plies differ only in their zones).
[[nodiscard]] std::vector<ChainRow> chainRows(const std::vector<SumLine>& sums);

/// What the saw must deliver for the part, in one sentence, or why that cannot be told.
[[nodiscard]] Result<BlankSpec> firstSpecOf(const Document& document, PartId part);

} // namespace stavewright::ui
