#pragma once
// What warp leaves of the thickness when a piece is first faced (design: "Warp takes thickness, and
// it takes it when a piece is first faced"), and how wide a piece is then.

#include "core/lumber/Board.h"

namespace stavewright::audit_detail {

/// Extents of a board that warp was measured on.
struct BoardExtent {
    Stretch along;
    Length widest;
};
[[nodiscard]] BoardExtent extentOf(const Board& board);

/// Width of the board at the widest place between two crosscuts.
[[nodiscard]] Length widestBetween(const Board& board, Stretch along);

/// Thickness left of a piece that lies at `along` and is `width` wide when it is first faced:
///   thinnest - bow (l/L)^2 - cup (w/W)^2 - twist/2 (l/L)(w/W) - cleaning
/// Each loss is rounded down to the nanometre, so the answer is less than 3 nm too generous.
[[nodiscard]] Length thicknessLeft(const Board& board, Stretch along, Length width,
                                   Length cleaning);

} // namespace stavewright::audit_detail
