#pragma once
// How fast a time grows with the size of a job: the slope of a straight line through the points on
// log-log axes. 1 is in step, 2 is with the square.

#include <optional>
#include <utility>
#include <vector>

namespace stavewright::cutting::bench {

/// Points of (size, seconds), both above 0; nothing for fewer than two sizes.
[[nodiscard]] std::optional<double>
slopeOnLogAxes(const std::vector<std::pair<double, double>>& points);

} // namespace stavewright::cutting::bench
