#pragma once
// The quiet drawn figure of a board without a photograph: lines along the grain that bend round the
// knots of one face and stay inside the outline. The same board always gives the same lines.

#include <vector>

#include "core/lumber/Board.h"

namespace stavewright::drawing {

[[nodiscard]] std::vector<std::vector<Point>> grainLines(const Board& board, BoardFace face,
                                                         Length spacing);

} // namespace stavewright::drawing
