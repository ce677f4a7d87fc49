// Exact decisions on the micrometre grid. Convex shapes, by far the most, are decided here with
// integer cross products; for the rest Boost.Geometry is asked, on the same grid.

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include <algorithm>

#include "core/geometry/Grid.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<std::int64_t>;
using BoostPolygon = bg::model::polygon<BoostPoint, /*ClockWise=*/false, /*Closed=*/false>;
using BoostLine = bg::model::linestring<BoostPoint>;

BoostPolygon boostPolygon(const grid::Ring& ring) {
    BoostPolygon polygon;
    for (const grid::GridPoint& point : ring) {
        polygon.outer().emplace_back(point.x, point.y);
    }
    return polygon;
}

/// A shape that the grid has flattened to a line, as that line.
BoostLine boostLine(const grid::Ring& ring) {
    BoostLine line;
    for (const grid::GridPoint& point : ring) {
        line.emplace_back(point.x, point.y);
    }
    line.emplace_back(ring.front().x, ring.front().y);
    return line;
}

bool boxInside(const grid::Box& inner, const grid::Box& outer) {
    return outer.low.x <= inner.low.x && outer.low.y <= inner.low.y &&
           inner.high.x <= outer.high.x && inner.high.y <= outer.high.y;
}

bool boxesMeet(const grid::Box& a, const grid::Box& b) {
    return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

bool everyCornerInside(const grid::Ring& inner, const grid::Ring& convexOuter) {
    const std::size_t n = convexOuter.size();
    for (std::size_t i = 0; i < n; ++i) {
        const grid::GridPoint& from = convexOuter[i];
        const grid::GridPoint& to = convexOuter[(i + 1) % n];
        for (const grid::GridPoint& corner : inner) {
            if (grid::cross(from, to, corner) < 0) {
                return false;
            }
        }
    }
    return true;
}

/// True when an edge of `a` has all of `b` on its outer side; edges of either convex shape are the
/// only lines that need to be tried.
bool anEdgeSeparates(const grid::Ring& a, const grid::Ring& b) {
    const std::size_t n = a.size();
    for (std::size_t i = 0; i < n; ++i) {
        const grid::GridPoint& from = a[i];
        const grid::GridPoint& to = a[(i + 1) % n];
        bool separates = true;
        for (const grid::GridPoint& corner : b) {
            if (grid::cross(from, to, corner) > 0) {
                separates = false;
                break;
            }
        }
        if (separates) {
            return true;
        }
    }
    return false;
}

/// Inside the ring and on none of its edges.
bool isStrictlyInside(const grid::Ring& ring, const grid::GridPoint& point) {
    bool inside = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const grid::GridPoint& a = ring[i];
        const grid::GridPoint& b = ring[(i + 1) % ring.size()];
        const bool isBeside = std::min(a.y, b.y) <= point.y && point.y <= std::max(a.y, b.y);
        const auto side = isBeside ? grid::cross(a, b, point) : 1;
        if (side == 0 && std::min(a.x, b.x) <= point.x && point.x <= std::max(a.x, b.x)) {
            return false;
        }
        if ((a.y > point.y) != (b.y > point.y)) {
            inside ^= (side > 0) == (b.y > a.y);
        }
    }
    return inside;
}

/// A point that lies in both, seen at once: where there is none, they may meet all the same.
bool middleIsInBoth(const grid::Ring& convex, const grid::Ring& other) {
    grid::GridPoint middle{0, 0};
    for (const grid::GridPoint& corner : convex) {
        middle.x += corner.x;
        middle.y += corner.y;
    }
    middle.x /= static_cast<std::int64_t>(convex.size());
    middle.y /= static_cast<std::int64_t>(convex.size());
    return isStrictlyInside(convex, middle) && isStrictlyInside(other, middle);
}

} // namespace

bool coveredBy(const Polygon& inner, const Polygon& outer) {
    if (inner.empty() || outer.empty() || !boxInside(grid::boxOf(inner), grid::boxOf(outer))) {
        return false;
    }
    const grid::Ring innerRing = grid::ringOf(inner);
    const grid::Ring outerRing = grid::ringOf(outer);
    if (grid::twiceAreaOf(outerRing) == 0) {
        return false;
    }
    if (grid::isConvex(outerRing)) {
        return everyCornerInside(innerRing, outerRing);
    }
    const BoostPolygon boostOuter = boostPolygon(outerRing);
    if (innerRing.size() == 1) {
        return bg::covered_by(BoostPoint(innerRing[0].x, innerRing[0].y), boostOuter);
    }
    if (grid::twiceAreaOf(innerRing) == 0) {
        return bg::covered_by(boostLine(innerRing), boostOuter);
    }
    return bg::covered_by(boostPolygon(innerRing), boostOuter);
}

bool interiorsMeet(const Polygon& a, const Polygon& b) {
    if (a.empty() || b.empty() || !boxesMeet(grid::boxOf(a), grid::boxOf(b))) {
        return false;
    }
    const grid::Ring ringA = grid::ringOf(a);
    const grid::Ring ringB = grid::ringOf(b);
    if (grid::twiceAreaOf(ringA) == 0 || grid::twiceAreaOf(ringB) == 0) {
        return false;
    }
    if (grid::isConvex(ringA) && grid::isConvex(ringB)) {
        return !anEdgeSeparates(ringA, ringB) && !anEdgeSeparates(ringB, ringA);
    }
    if ((grid::isConvex(ringA) && middleIsInBoth(ringA, ringB)) ||
        (grid::isConvex(ringB) && middleIsInBoth(ringB, ringA))) {
        return true; // a strip on a board with a bent edge, as a rule
    }
    static const bg::de9im::mask interiors("T********");
    return bg::relate(boostPolygon(ringA), boostPolygon(ringB), interiors);
}

Overlap intersection(const Polygon& a, const Polygon& b) {
    Overlap overlap;
    if (!interiorsMeet(a, b)) {
        return overlap;
    }
    std::vector<BoostPolygon> pieces;
    bg::intersection(boostPolygon(grid::ringOf(a)), boostPolygon(grid::ringOf(b)), pieces);
    for (const BoostPolygon& piece : pieces) {
        Polygon polygon;
        for (const BoostPoint& point : piece.outer()) {
            polygon.push_back({Length::micrometres(point.x()), Length::micrometres(point.y())});
        }
        polygon = normalised(std::move(polygon));
        if (polygon.size() >= 3) {
            overlap.area += areaOf(polygon);
            overlap.pieces.push_back(std::move(polygon));
        }
    }
    return overlap;
}

} // namespace stavewright
