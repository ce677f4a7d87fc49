#pragma once
// Outlines for the drawing tests, in inches.

#include <cmath>
#include <initializer_list>
#include <numbers>
#include <utility>

#include "core/drawing/Clip.h"

namespace stavewright::drawing::test {

inline Length inch(double value) { return Length::nanometres(std::llround(value * 25.4e6)); }

inline Polygon shape(std::initializer_list<std::pair<double, double>> corners) {
    Polygon polygon;
    for (const auto& [x, y] : corners) {
        polygon.push_back({inch(x), inch(y)});
    }
    return polygon;
}

inline Polygon ellipse(double x, double y, double halfLength, double halfWidth) {
    constexpr int corners = 24;
    Polygon polygon;
    for (int i = 0; i < corners; ++i) {
        const double turn = 2 * std::numbers::pi * i / corners;
        polygon.push_back(
            {inch(x + halfLength * std::cos(turn)), inch(y + halfWidth * std::sin(turn))});
    }
    return polygon;
}

/// An angled bite out of a square, as a mark that follows a wane edge may be.
inline Polygon angled() { return shape({{0, 0}, {2, 0}, {2, 0.7}, {1, 0.7}, {1, 2}, {0, 2}}); }

/// Inside, or outside by no more than `nanometres`.
inline bool liesWithin(const Point& point, const Polygon& polygon, double nanometres) {
    const Curve ring = curveOf(polygon);
    return isInside(spotOf(point), ring) || distanceToEdge(spotOf(point), ring) <= nanometres;
}

} // namespace stavewright::drawing::test
