#pragma once
// Private to core/geometry: the integer micrometre grid on which polygons are decided exactly. On
// it a cross product of 12 m boards stays far inside 64 bits. One rounding rule (nearest, halves
// away from zero) keeps equal lengths equal, so that flush stays flush.

#include <boost/container/small_vector.hpp>
#include <cstdint>

#include "core/geometry/Shapes.h"

namespace stavewright::grid {

struct GridPoint {
    std::int64_t x = 0;
    std::int64_t y = 0;
    friend constexpr bool operator==(const GridPoint&, const GridPoint&) = default;
};

/// Counter-clockwise, no repeated corners, not closed.
using Ring = boost::container::small_vector<GridPoint, 32>;

struct Box {
    GridPoint low;
    GridPoint high;
};

[[nodiscard]] constexpr std::int64_t onGrid(Length length) {
    const std::int64_t n = length.inNanometres();
    constexpr std::int64_t step = Length::nanometresPerMicrometre;
    return (n < 0 ? n - step / 2 : n + step / 2) / step;
}
[[nodiscard]] constexpr GridPoint onGrid(const Point& point) {
    return {onGrid(point.x), onGrid(point.y)};
}

/// Positive when o -> a -> b turns left.
[[nodiscard]] constexpr std::int64_t cross(const GridPoint& o, const GridPoint& a,
                                           const GridPoint& b) {
    return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

[[nodiscard]] Ring ringOf(const Polygon& polygon);
[[nodiscard]] Box boxOf(const Polygon& polygon);
[[nodiscard]] Int128 twiceAreaOf(const Ring& ring);
[[nodiscard]] bool isConvex(const Ring& ring);

} // namespace stavewright::grid
