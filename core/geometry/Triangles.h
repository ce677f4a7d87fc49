#pragma once
// Private to core/geometry: a polygon as triangles between its own corners.

#include <array>
#include <vector>

#include "core/geometry/Shapes.h"

namespace stavewright {

using Triangle = std::array<Point, 3>;

[[nodiscard]] bool isConvex(const Polygon& polygon);

/// The triangles that make up a counter-clockwise simple polygon (ear clipping). A ring that is not
/// simple yields the fan over its convex hull: more than the ring, never less.
[[nodiscard]] std::vector<Triangle> trianglesOf(const Polygon& polygon);

} // namespace stavewright
