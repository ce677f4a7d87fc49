#pragma once
// The one place where polygons are judged. Inside it is Boost.Geometry on an integer micrometre
// grid with one rounding rule (nearest, halves away from zero, so equal lengths round equally and
// flush stays flush). Measured on Boost 1.74: overlay on int64 nanometres overflows at board size,
// on micrometres it does not. Decisions are taken on original outlines only; a clipped polygon is a
// hint.

#include <optional>
#include <string>

#include "core/base/Result.h"
#include "core/geometry/Shapes.h"

namespace stavewright {

/// Polygon tests allow this much, because frames at an angle are rounded to the grid.
inline constexpr Length polygonTolerance = Length::micrometres(2);

/// A closed, counter-clockwise, not self-crossing ring of at least three corners with positive
/// area; otherwise one sentence naming what is wrong and where.
Status validatePolygon(const Polygon& polygon);

/// The ring turned counter-clockwise and without repeated corners. Does not repair crossings.
[[nodiscard]] Polygon normalised(Polygon polygon);

[[nodiscard]] Polygon polygonOf(const Rect& rect);

/// Straight-sided ellipse of `corners` corners whose corners lie on the ellipse scaled so that the
/// polygon contains the true ellipse. `turn` is counter-clockwise from x, in microradians.
[[nodiscard]] Polygon ellipsePolygon(Point centre, Length along, Length across,
                                     std::int64_t turnMicroradians = 0, int corners = 24);

[[nodiscard]] Rect boundingBox(const Polygon& polygon);
[[nodiscard]] Area areaOf(const Polygon& polygon);

/// True when `inner` lies in `outer`, flush allowed.
[[nodiscard]] bool coveredBy(const Polygon& inner, const Polygon& outer);

/// True when `inner` reaches outside `outer` by no more than polygonTolerance.
[[nodiscard]] bool coveredWithinTolerance(const Polygon& inner, const Polygon& outer);

/// True when the interiors share a point; edge or corner contact does not count.
[[nodiscard]] bool interiorsMeet(const Polygon& a, const Polygon& b);

/// True when the interiors still meet after allowing polygonTolerance: the depth of the overlap,
/// measured square to the edges of the shallower side, is more than the tolerance.
[[nodiscard]] bool overlapsBeyondTolerance(const Polygon& a, const Polygon& b);

[[nodiscard]] Polygon convexHull(const Polygon& polygon);

/// The polygon grown by `along` in x to both sides and by `across` in y to both sides: the convex
/// hull of the Minkowski sum with that rectangle.
[[nodiscard]] Polygon grown(const Polygon& polygon, Length along, Length across);

/// Area of the common part of the two polygons, and its pieces as hints.
struct Overlap {
    Area area;
    std::vector<Polygon> pieces;
};
[[nodiscard]] Overlap intersection(const Polygon& a, const Polygon& b);

/// Lowest and highest y of the polygon at this x; nothing where the polygon does not reach.
/// For outlines that are one run in y at every x (boards), this is the board's width there.
[[nodiscard]] std::optional<Stretch> acrossAt(const Polygon& polygon, Length x);

/// The y-run that is inside the polygon for every x of `xs` (for boards: the straight strip that
/// can be had parallel to x); nothing when there is none.
[[nodiscard]] std::optional<Stretch> clearAcross(const Polygon& polygon, Stretch xs);

/// A frame inside another one: an origin and a small turn given by a direction of integers.
/// Local (u, v) maps to origin + u * d + v * perpendicular(d), d = (run, rise) / |(run, rise)|,
/// rounded to the nearest nanometre.
struct Frame {
    Point origin;
    Length run = Length::nanometres(1);
    Length rise;

    [[nodiscard]] bool isParallel() const { return rise == Length(); }
    friend bool operator==(const Frame&, const Frame&) = default;
};
[[nodiscard]] Point toOuter(const Frame& frame, Point local);
[[nodiscard]] Point toLocal(const Frame& frame, Point outer);
[[nodiscard]] Polygon toOuter(const Frame& frame, const Rect& local);
[[nodiscard]] Polygon toLocal(const Frame& frame, const Polygon& outer);

} // namespace stavewright
