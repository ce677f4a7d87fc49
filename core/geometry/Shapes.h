#pragma once
// Points, rectangles and simple polygons in a plane frame (x along the grain, y across).
// Rectangles of one frame compare exactly, in nanometres. Polygons are single rings without a hole,
// counter-clockwise, not closed by a repeated point; they are judged by PolygonOps.h.

#include <vector>

#include "core/units/Length.h"

namespace stavewright {

struct Point {
    Length x;
    Length y;
    friend constexpr bool operator==(const Point&, const Point&) = default;
};

/// Axis-parallel rectangle, x0 <= x1 and y0 <= y1.
struct Rect {
    Length x0;
    Length y0;
    Length x1;
    Length y1;

    [[nodiscard]] constexpr Length length() const { return x1 - x0; }
    [[nodiscard]] constexpr Length width() const { return y1 - y0; }
    [[nodiscard]] constexpr Area area() const { return length() * width(); }
    [[nodiscard]] constexpr bool isEmpty() const { return x1 <= x0 || y1 <= y0; }
    /// Flush counts as inside.
    [[nodiscard]] constexpr bool contains(const Rect& other) const {
        return x0 <= other.x0 && y0 <= other.y0 && other.x1 <= x1 && other.y1 <= y1;
    }
    /// True when the interiors meet; touching edges do not.
    [[nodiscard]] constexpr bool overlaps(const Rect& other) const {
        return x0 < other.x1 && other.x0 < x1 && y0 < other.y1 && other.y0 < y1;
    }
    friend constexpr bool operator==(const Rect&, const Rect&) = default;
};

using Polygon = std::vector<Point>;

/// A stretch along one axis, from <= to.
struct Stretch {
    Length from;
    Length to;
    [[nodiscard]] constexpr Length length() const { return to - from; }
    friend constexpr bool operator==(const Stretch&, const Stretch&) = default;
};

} // namespace stavewright
