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
    Length straight;  ///< widest straight strip of that length, at its best place on the board
    friend bool operator==(const ReachRow&, const ReachRow&) = default;
};

/// Pieces of each of these lengths that the board gives, and last the whole board. Where warp sits
/// mostly at one end, the pieces are taken from that end.
[[nodiscard]] std::vector<ReachRow> warpReach(const Board& board, const std::vector<Length>& pieces,
                                              Length cleaning);

/// The longest piece, as wide as the board and cut in whole steps, that still reaches a thickness.
struct ThicknessStep {
    Length thickness;
    Length longest;
    friend bool operator==(const ThicknessStep&, const ThicknessStep&) = default;
};
/// Thicknesses at whole `thicknessStep`s that shorter pieces reach and the whole board does not,
/// the thinnest first; of many the four thickest. Empty for a board that is flat.
[[nodiscard]] std::vector<ThicknessStep> thicknessSteps(const Board& board, Length cleaning,
                                                        Length thicknessStep, Length lengthStep);

/// The widest strip that can be cut straight from edge to edge out of a piece of this length, with
/// the piece straightened on the chord of its own near edge, between the trimmed ends: the best of
/// some places along the board.
[[nodiscard]] Length straightWidth(const Board& board, Length piece);

} // namespace stavewright
