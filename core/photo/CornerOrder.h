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

/// The photograph was taken from the other side: ends and edges are exchanged, what is marked stays
/// on its pixels. A tape is read from the other end as well, so one that was marked is no longer
/// there.
[[nodiscard]] PhotoControls seenFromOtherSide(PhotoControls controls);

} // namespace stavewright::photo
