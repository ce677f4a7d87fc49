#include "core/geometry/Grid.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright::grid {

Ring ringOf(const Polygon& polygon) {
    Ring ring;
    ring.reserve(polygon.size());
    for (const Point& corner : polygon) {
        const GridPoint point = onGrid(corner);
        if (ring.empty() || !(ring.back() == point)) {
            ring.push_back(point);
        }
    }
    while (ring.size() > 1 && ring.front() == ring.back()) {
        ring.pop_back();
    }
    if (twiceAreaOf(ring) < 0) {
        std::reverse(ring.begin(), ring.end());
    }
    return ring;
}

Box boxOf(const Polygon& polygon) {
    // The rounding is monotone, so the box of the rounded ring is the rounded box.
    const Rect box = boundingBox(polygon);
    return {{onGrid(box.x0), onGrid(box.y0)}, {onGrid(box.x1), onGrid(box.y1)}};
}

Int128 twiceAreaOf(const Ring& ring) {
    Int128 sum = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        sum += cross(ring[0], ring[i], ring[i + 1]);
    }
    return sum;
}

bool isConvex(const Ring& ring) {
    const std::size_t n = ring.size();
    int turnsBack = 0;
    int lastSign = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const GridPoint& a = ring[i];
        const GridPoint& b = ring[(i + 1) % n];
        const GridPoint& c = ring[(i + 2) % n];
        if (cross(a, b, c) < 0) {
            return false;
        }
        // A ring that winds round twice turns left everywhere too, but runs back and forth.
        const int sign = b.x > a.x ? 1 : (b.x < a.x ? -1 : 0);
        if (sign != 0 && lastSign != 0 && sign != lastSign) {
            ++turnsBack;
        }
        if (sign != 0) {
            lastSign = sign;
        }
    }
    return n >= 3 && turnsBack <= 2;
}

} // namespace stavewright::grid
