#pragma once
// Four corners in any order, as somebody clicks or types them.

#include <array>

#include "core/base/Result.h"
#include "core/lumber/PhotoControls.h"

namespace stavewright::photo {

/// Which is which, for a board that is seen from above with its datum end at the left, or at the
/// bottom where it stands upright in the picture. Fails when they do not go round a board.
[[nodiscard]] Result<std::vector<CornerMark>>
cornersInAnyOrder(const std::array<Pixels, 4>& corners, const BoardSize& board);

/// The same end, other edge: with the board turned over, what was its near edge is its far one.
[[nodiscard]] Corner atOtherEdge(Corner corner);

} // namespace stavewright::photo
