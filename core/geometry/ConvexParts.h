#pragma once
// Private to core/geometry: a polygon as convex parts.

#include <vector>

#include "core/geometry/Shapes.h"

namespace stavewright {

[[nodiscard]] bool isConvex(const Polygon& polygon);

/// The convex parts of a counter-clockwise simple polygon, cut from each inward corner along the
/// extension of the edge that leads to it, so that every part lies wholly on the inner side of
/// both edges of such a corner or of the one it keeps. Cuts end on the far border, rounded to the
/// nanometre. A part that cannot be cut (a ring that crosses itself) yields its convex hull: more
/// than the ring, never less.
[[nodiscard]] std::vector<Polygon> convexPartsOf(const Polygon& polygon);

} // namespace stavewright
