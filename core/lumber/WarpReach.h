#pragma once
// What warp leaves of a board, as a small table: the thickness that pieces of some lengths still
// reach. It shows why the saw comes before the jointer.

#include <vector>

#include "core/lumber/Board.h"

namespace stavewright {

struct ReachRow {
    Length piece;     ///< length of the piece at its first facing
    Length fullWidth; ///< thickness it reaches as wide as the board
    Length halfWidth; ///< thickness it reaches when the board is rough-ripped in half first
    friend bool operator==(const ReachRow&, const ReachRow&) = default;
};

/// Pieces of each of these lengths that the board gives, and last the whole board. Where warp sits
/// mostly at one end, the pieces are taken from that end.
[[nodiscard]] std::vector<ReachRow> warpReach(const Board& board, const std::vector<Length>& pieces,
                                              Length cleaning);

} // namespace stavewright
