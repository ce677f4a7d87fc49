#pragma once
// The offcuts of a plan as boards of their own: with the shape that the cuts leave, not only the
// rectangle that is sure to be in it, and with all that lies on that wood on both faces.

#include <vector>

#include "core/document/Document.h"

namespace stavewright::rack {

struct OffcutBoard {
    OffcutId offcut;
    Board board;  ///< marked after its board: "7-1"; ids are not given
    Point origin; ///< of its frame in its board's frame
};

/// Those that the plan keeps of this board, in the plan's order. Warp follows the square law (see
/// reachableThickness), and each is priced so that the next job pays what this one was credited for
/// it. What is planed already is flat and as thick as it was planed. Photographs stay behind: they
/// show another board.
[[nodiscard]] std::vector<OffcutBoard> offcutBoards(const Document& document, BoardId board);

/// The part of a board inside `wood` (in the board's frame, a part of its outline), as a board.
[[nodiscard]] Board partOf(const Board& board, const Polygon& wood);

} // namespace stavewright::rack
