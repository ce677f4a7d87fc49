// The two decisions that allow polygonTolerance. They work on nanometres, not on the grid: the
// corners' differences are exact, and a distance computed from them in double is right to far less
// than a nanometre at board size, so that only the tolerance itself decides.

#include <algorithm>
#include <cmath>

#include "core/geometry/ConvexParts.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

/// The tolerance, and a hundredth of a micrometre for corners of turned frames, which are rounded
/// to the nanometre: flush at exactly the tolerance still counts as flush.
constexpr double allowance = static_cast<double>(polygonTolerance.inNanometres()) + 10;
/// Differences below this are rounding in double.
constexpr double nothing = 1e-2;

struct Vector {
    double x;
    double y;
};

double dot(Vector a, Vector b) { return a.x * b.x + a.y * b.y; }
double cross(Vector a, Vector b) { return a.x * b.y - a.y * b.x; }

Vector between(const Point& from, const Point& to) {
    return {static_cast<double>((to.x - from.x).inNanometres()),
            static_cast<double>((to.y - from.y).inNanometres())};
}

/// A straight edge with its unit direction; the polygon lies to its left.
struct Edge {
    Point from;
    Vector direction;
    double length;

    [[nodiscard]] double insideOf(const Point& point) const {
        return cross(direction, between(from, point));
    }
};

std::vector<Edge> edgesOf(const Polygon& polygon) {
    std::vector<Edge> edges;
    edges.reserve(polygon.size());
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point& from = polygon[i];
        const Vector span = between(from, polygon[(i + 1) % polygon.size()]);
        const double length = std::hypot(span.x, span.y);
        if (length > 0) {
            edges.push_back({from, {span.x / length, span.y / length}, length});
        }
    }
    return edges;
}

double distanceTo(const Edge& edge, const Point& point) {
    const Vector offset = between(edge.from, point);
    const double along = std::clamp(dot(edge.direction, offset), 0.0, edge.length);
    return std::hypot(offset.x - along * edge.direction.x, offset.y - along * edge.direction.y);
}

double distanceTo(const std::vector<Edge>& edges, const Point& point) {
    double least = INFINITY;
    for (const Edge& edge : edges) {
        least = std::min(least, distanceTo(edge, point));
    }
    return least;
}

/// Even-odd test of a point that is farther from every edge than rounding matters.
bool isInside(const Polygon& polygon, const Point& point) {
    bool inside = false;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point& a = polygon[i];
        const Point& b = polygon[(i + 1) % polygon.size()];
        if ((a.y > point.y) == (b.y > point.y)) {
            continue;
        }
        const Point& below = a.y < b.y ? a : b;
        const Point& above = a.y < b.y ? b : a;
        inside ^= cross(between(below, above), between(below, point)) > 0;
    }
    return inside;
}

Point along(const Edge& edge, double distance, double outward = 0) {
    const double x = distance * edge.direction.x + outward * edge.direction.y;
    const double y = distance * edge.direction.y - outward * edge.direction.x;
    return {edge.from.x + Length::nanometres(std::llround(x)),
            edge.from.y + Length::nanometres(std::llround(y))};
}

// --- covered within tolerance

struct Interval {
    double from;
    double to;
};

/// Stretch of the line along `edge` that lies within the allowance of `other`: such a band round a
/// straight edge is convex, so it is one stretch; empty (from > to) when the line passes by.
Interval nearStretch(const Edge& edge, const Edge& other) {
    Interval stretch{INFINITY, -INFINITY};
    const auto include = [&stretch](double from, double to) {
        stretch.from = std::min(stretch.from, from);
        stretch.to = std::max(stretch.to, to);
    };
    const auto includeRound = [&](Vector centre) {
        const double height = cross(edge.direction, centre);
        if (std::abs(height) <= allowance) {
            const double half = std::sqrt(allowance * allowance - height * height);
            const double middle = dot(edge.direction, centre);
            include(middle - half, middle + half);
        }
    };
    const Vector start = between(edge.from, other.from);
    includeRound(start);
    includeRound(
        {start.x + other.length * other.direction.x, start.y + other.length * other.direction.y});
    // The straight part: at most the allowance off the other edge, and beside it.
    double from = -INFINITY;
    double to = INFINITY;
    const auto require = [&from, &to](double at, double slope, double low, double high) {
        if (slope == 0) {
            if (at < low || at > high) {
                to = -INFINITY;
            }
            return;
        }
        const double one = (low - at) / slope;
        const double two = (high - at) / slope;
        from = std::max(from, std::min(one, two));
        to = std::min(to, std::max(one, two));
    };
    const Vector back{-start.x, -start.y};
    require(cross(other.direction, back), cross(other.direction, edge.direction), -allowance,
            allowance);
    require(dot(other.direction, back), dot(other.direction, edge.direction), 0, other.length);
    if (from <= to) {
        include(from, to);
    }
    return stretch;
}

/// Every point of the edge lies in the polygon or within the allowance of it. Away from the band
/// round the polygon's border a stretch is wholly inside or wholly outside, so its middle decides.
bool edgeStaysInside(const Edge& edge, const Polygon& outer, const std::vector<Edge>& border) {
    std::vector<Interval> near;
    for (const Edge& other : border) {
        const Interval stretch = nearStretch(edge, other);
        if (stretch.from <= stretch.to && stretch.to >= 0 && stretch.from <= edge.length) {
            near.push_back(stretch);
        }
    }
    near.push_back({edge.length, edge.length});
    std::sort(near.begin(), near.end(),
              [](const Interval& a, const Interval& b) { return a.from < b.from; });
    double reached = 0;
    for (const Interval& next : near) {
        if (next.from - reached > nothing &&
            !isInside(outer, along(edge, (reached + next.from) / 2))) {
            return false;
        }
        reached = std::max(reached, next.to);
    }
    return true;
}

/// With inner's border in place, outer could still keep a pocket inside inner behind a mouth too
/// narrow to see. Looked for only when a corner of outer stands well inside inner.
bool hidesPocket(const Polygon& inner, const std::vector<Edge>& innerBorder, const Polygon& outer,
                 const std::vector<Edge>& outerBorder) {
    const auto isDeepInside = [&](const Point& point) {
        return isInside(inner, point) && distanceTo(innerBorder, point) > allowance;
    };
    if (std::none_of(outer.begin(), outer.end(), isDeepInside)) {
        return false;
    }
    for (const Edge& edge : outerBorder) {
        for (const int quarter : {1, 2, 3}) {
            const Point beside = along(edge, edge.length * quarter / 4, 2 * allowance);
            if (isDeepInside(beside) && !isInside(outer, beside) &&
                distanceTo(outerBorder, beside) > allowance) {
                return true;
            }
        }
    }
    return false;
}

// --- overlap beyond tolerance

/// Cuts between convex parts are rounded to the nanometre.
constexpr double cutRounding = 5;

/// Deepest that any corner stands on the inner side of the edge; negative when all stay outside.
double deepest(const Edge& edge, const Polygon& polygon) {
    double depth = -INFINITY;
    for (const Point& corner : polygon) {
        depth = std::max(depth, edge.insideOf(corner));
    }
    return depth;
}

/// One of the edges keeps `other` out, but for the allowance.
bool anEdgeSeparates(const std::vector<Edge>& edges, const Polygon& other) {
    return std::any_of(edges.begin(), edges.end(),
                       [&](const Edge& edge) { return deepest(edge, other) <= allowance; });
}

/// As above for a convex part of a polygon: any edge of the polygon that has the whole part on its
/// inner side may allow for the tolerance; the part's other sides, cuts through the polygon, may
/// not.
bool anEdgeSeparates(const std::vector<Edge>& border, const Polygon& part, const Polygon& other) {
    for (const Edge& edge : border) {
        const bool partInside = std::all_of(part.begin(), part.end(), [&](const Point& corner) {
            return edge.insideOf(corner) >= -cutRounding;
        });
        if (partInside && deepest(edge, other) <= allowance) {
            return true;
        }
    }
    const std::vector<Edge> sides = edgesOf(part);
    return std::any_of(sides.begin(), sides.end(),
                       [&](const Edge& edge) { return deepest(edge, other) <= cutRounding; });
}

bool boxesMeet(const Polygon& a, const Polygon& b) {
    const Rect boxA = boundingBox(a);
    const Rect boxB = boundingBox(b);
    return boxA.x0 < boxB.x1 && boxB.x0 < boxA.x1 && boxA.y0 < boxB.y1 && boxB.y0 < boxA.y1;
}

} // namespace

bool coveredWithinTolerance(const Polygon& inner, const Polygon& outer) {
    if (inner.empty() || outer.empty()) {
        return false;
    }
    const Rect innerBox = boundingBox(inner);
    const Rect outerBox = boundingBox(outer);
    const Length reach = Length::nanometres(static_cast<std::int64_t>(allowance));
    if (innerBox.x0 < outerBox.x0 - reach || innerBox.y0 < outerBox.y0 - reach ||
        innerBox.x1 > outerBox.x1 + reach || innerBox.y1 > outerBox.y1 + reach) {
        return false;
    }
    const Polygon ring = normalised(outer);
    const std::vector<Edge> outerBorder = edgesOf(ring);
    if (isConvex(ring) &&
        std::all_of(outerBorder.begin(), outerBorder.end(), [&](const Edge& edge) {
            return std::all_of(inner.begin(), inner.end(),
                               [&](const Point& corner) { return edge.insideOf(corner) >= 0; });
        })) {
        return true;
    }
    const std::vector<Edge> innerBorder = edgesOf(normalised(inner));
    if (innerBorder.empty()) { // a single spot
        return isInside(ring, inner[0]) || distanceTo(outerBorder, inner[0]) <= allowance;
    }
    return std::all_of(
               innerBorder.begin(), innerBorder.end(),
               [&](const Edge& edge) { return edgeStaysInside(edge, ring, outerBorder); }) &&
           !hidesPocket(inner, innerBorder, ring, outerBorder);
}

bool overlapsBeyondTolerance(const Polygon& a, const Polygon& b) {
    if (a.size() < 2 || b.size() < 2 || !boxesMeet(a, b)) {
        return false;
    }
    const Polygon ringA = normalised(a);
    const Polygon ringB = normalised(b);
    const std::vector<Edge> borderA = edgesOf(ringA);
    const std::vector<Edge> borderB = edgesOf(ringB);
    const bool convexA = isConvex(ringA);
    const bool convexB = isConvex(ringB);
    if ((convexA && anEdgeSeparates(borderA, ringB)) ||
        (convexB && anEdgeSeparates(borderB, ringA))) {
        return false;
    }
    if (convexA && convexB) {
        return true;
    }
    const std::vector<Polygon> partsB = convexPartsOf(ringB);
    for (const Polygon& partA : convexPartsOf(ringA)) {
        for (const Polygon& partB : partsB) {
            if (!anEdgeSeparates(borderA, partA, partB) &&
                !anEdgeSeparates(borderB, partB, partA)) {
                return true;
            }
        }
    }
    return false;
}

} // namespace stavewright
