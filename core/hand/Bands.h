#pragma once
// Private to core/hand: where along the grain something meets a band of wood, of a height across.

#include <cmath>
#include <vector>

#include "core/geometry/PolygonOps.h"

namespace stavewright::hand {

/// Further than any board is long.
constexpr Length beyond = Length::millimetres(1'000'000);

[[nodiscard]] inline double number(Length value) {
    return static_cast<double>(value.inNanometres());
}
[[nodiscard]] inline Length roundedUp(double nanometres) {
    return Length::nanometres(static_cast<std::int64_t>(std::ceil(nanometres)));
}
[[nodiscard]] inline Length roundedDown(double nanometres) {
    return Length::nanometres(static_cast<std::int64_t>(std::floor(nanometres)));
}

/// Where along x the polygon reaches strictly into a band of y, ascending.
[[nodiscard]] std::vector<Stretch> reachesInto(const Polygon& polygon, Stretch band);

/// Stretches of x where the polygon does not hold the band of y, ascending; the ends of the axis
/// are `beyond`.
[[nodiscard]] std::vector<Stretch> uncovered(const Polygon& polygon, Stretch band);

} // namespace stavewright::hand
