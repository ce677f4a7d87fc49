#include "core/geometry/Triangles.h"

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

int side(const Point& o, const Point& a, const Point& b) {
    const Int128 turn = ((a.x - o.x) * (b.y - o.y)).inSquareNanometres() -
                        ((a.y - o.y) * (b.x - o.x)).inSquareNanometres();
    return turn > 0 ? 1 : (turn < 0 ? -1 : 0);
}

bool isInOrOn(const Triangle& triangle, const Point& point) {
    return side(triangle[0], triangle[1], point) >= 0 &&
           side(triangle[1], triangle[2], point) >= 0 && side(triangle[2], triangle[0], point) >= 0;
}

bool isCornerOf(const Triangle& triangle, const Point& point) {
    return point == triangle[0] || point == triangle[1] || point == triangle[2];
}

/// The corner at `index` can be cut off: it turns left and no other corner lies in its triangle.
bool isEar(const Polygon& ring, std::size_t index, const Triangle& triangle) {
    if (side(triangle[0], triangle[1], triangle[2]) <= 0) {
        return false;
    }
    for (std::size_t i = 0; i < ring.size(); ++i) {
        if (i != index && !isCornerOf(triangle, ring[i]) && isInOrOn(triangle, ring[i])) {
            return false;
        }
    }
    return true;
}

std::vector<Triangle> fanOf(const Polygon& convex) {
    std::vector<Triangle> triangles;
    for (std::size_t i = 1; i + 1 < convex.size(); ++i) {
        triangles.push_back({convex[0], convex[i], convex[i + 1]});
    }
    return triangles;
}

} // namespace

bool isConvex(const Polygon& polygon) {
    const std::size_t n = polygon.size();
    int turnsBack = 0;
    int lastSign = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const Point& a = polygon[i];
        const Point& b = polygon[(i + 1) % n];
        if (side(a, b, polygon[(i + 2) % n]) < 0) {
            return false;
        }
        // A ring that winds round twice turns left everywhere too, but runs back and forth.
        const int sign = b.x > a.x ? 1 : (b.x < a.x ? -1 : 0);
        if (sign != 0) {
            turnsBack += lastSign != 0 && sign != lastSign ? 1 : 0;
            lastSign = sign;
        }
    }
    return n >= 3 && turnsBack <= 2;
}

std::vector<Triangle> trianglesOf(const Polygon& polygon) {
    std::vector<Triangle> triangles;
    Polygon ring = polygon;
    while (ring.size() > 3) {
        const std::size_t n = ring.size();
        bool clipped = false;
        for (std::size_t i = 0; i < n && !clipped; ++i) {
            const Triangle triangle{ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]};
            const bool isStraight = side(triangle[0], triangle[1], triangle[2]) == 0;
            if (isStraight || isEar(ring, i, triangle)) {
                if (!isStraight) {
                    triangles.push_back(triangle);
                }
                ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
                clipped = true;
            }
        }
        if (!clipped) {
            return fanOf(convexHull(polygon));
        }
    }
    if (ring.size() == 3 && side(ring[0], ring[1], ring[2]) > 0) {
        triangles.push_back({ring[0], ring[1], ring[2]});
    }
    return triangles;
}

} // namespace stavewright
