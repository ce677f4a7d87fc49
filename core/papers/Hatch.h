#pragma once
// Hatching as clipped lines at 45 degrees: a toolkit's brush pattern would print as a flat tint.

#include <utility>
#include <vector>

#include "core/geometry/Shapes.h"

namespace stavewright::papers {

/// Line pieces at 45 degrees, `spacing` apart, inside `outline` and outside every one of `holes`.
[[nodiscard]] std::vector<std::pair<Point, Point>>
hatchLines(const Polygon& outline, const std::vector<Polygon>& holes, Length spacing);

} // namespace stavewright::papers
