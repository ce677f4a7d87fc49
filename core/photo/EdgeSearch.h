#pragma once
// The long edges of a board of which the four corners are marked, found in its photograph: a
// straight board's edges bow apart in the middle when the lens bends outwards (barrel) and towards
// each other when it bends inwards. A crooked board's bow the same way, a tapered one's not at all.

#include <vector>

#include "core/lumber/PhotoControls.h"
#include "core/photo/Image.h"

namespace stavewright::photo {

/// Pairs of places that face each other on the near and on the far edge, near one first, evenly
/// along the board; straighten() takes the bend of the lens from their distances. Nothing where the
/// edges are not plain to see, not straight enough to tell a lens by (wane), or not as far apart as
/// the measured widths say. `controls`: of this picture, with its four corners.
[[nodiscard]] std::vector<EdgeMark>
edgesFound(const ImageView& picture, const PhotoControls& controls, const BoardSize& board);

} // namespace stavewright::photo
