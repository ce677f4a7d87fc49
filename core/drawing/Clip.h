#pragma once
// Open strokes cut to an outline. Works on drawings only: points are rounded to the nanometre, so a
// stroke's end may stand that far outside. What is decided about wood is decided in core/geometry.

#include <vector>

#include "core/geometry/Shapes.h"

namespace stavewright::drawing {

/// A point while a figure is worked out, in nanometres.
struct Spot {
    double x = 0;
    double y = 0;
};
using Curve = std::vector<Spot>;

[[nodiscard]] Spot spotOf(const Point& point);
[[nodiscard]] Point pointOf(const Spot& spot);
[[nodiscard]] std::vector<Point> pointsOf(const Curve& curve);
[[nodiscard]] Curve curveOf(const std::vector<Point>& points);

/// Even-odd rule; on the edge may be either.
[[nodiscard]] bool isInside(const Spot& spot, const Curve& ring);
[[nodiscard]] double distanceToEdge(const Spot& spot, const Curve& ring);

/// The stretches of `curve` inside `ring`, in order.
[[nodiscard]] std::vector<Curve> insideParts(const Curve& curve, const Curve& ring);
/// The stretches of `curve` outside `ring`, in order.
[[nodiscard]] std::vector<Curve> outsideParts(const Curve& curve, const Curve& ring);

} // namespace stavewright::drawing
