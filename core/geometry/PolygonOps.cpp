// Making and measuring polygons, exactly, in nanometres.

#include "core/geometry/PolygonOps.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace stavewright {

namespace {

Int128 cross(const Point& o, const Point& a, const Point& b) {
    const auto product = [](Length p, Length q) { return (p * q).inSquareNanometres(); };
    return product(a.x - o.x, b.y - o.y) - product(a.y - o.y, b.x - o.x);
}

Int128 twiceSignedArea(const Polygon& polygon) {
    Int128 sum = 0;
    for (std::size_t i = 1; i + 1 < polygon.size(); ++i) {
        sum += cross(polygon[0], polygon[i], polygon[i + 1]);
    }
    return sum;
}

} // namespace

Polygon normalised(Polygon polygon) {
    polygon.erase(std::unique(polygon.begin(), polygon.end()), polygon.end());
    while (polygon.size() > 1 && polygon.front() == polygon.back()) {
        polygon.pop_back();
    }
    if (twiceSignedArea(polygon) < 0) {
        std::reverse(polygon.begin(), polygon.end());
    }
    return polygon;
}

Polygon polygonOf(const Rect& rect) {
    return {{rect.x0, rect.y0}, {rect.x1, rect.y0}, {rect.x1, rect.y1}, {rect.x0, rect.y1}};
}

Polygon ellipsePolygon(Point centre, Length along, Length across, std::int64_t turnMicroradians,
                       int corners) {
    assert(corners >= 3);
    // A polygon round the unit circle touches it at the middle of its edges; its corners lie at
    // 1 / cos(half step). Two nanometres more outweigh the rounding of the corners.
    const double halfStep = std::numbers::pi / corners;
    const double reach = 1.0 / std::cos(halfStep);
    const double a = static_cast<double>(along.inNanometres()) / 2 * reach + 2;
    const double b = static_cast<double>(across.inNanometres()) / 2 * reach + 2;
    const double turn = static_cast<double>(turnMicroradians) * 1e-6;
    Polygon polygon;
    polygon.reserve(static_cast<std::size_t>(corners));
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * halfStep * i;
        const double u = a * std::cos(angle);
        const double v = b * std::sin(angle);
        const double x = u * std::cos(turn) - v * std::sin(turn);
        const double y = u * std::sin(turn) + v * std::cos(turn);
        polygon.push_back({centre.x + Length::nanometres(std::llround(x)),
                           centre.y + Length::nanometres(std::llround(y))});
    }
    return normalised(std::move(polygon));
}

Rect boundingBox(const Polygon& polygon) {
    if (polygon.empty()) {
        return {};
    }
    Rect box{polygon[0].x, polygon[0].y, polygon[0].x, polygon[0].y};
    for (const Point& corner : polygon) {
        box.x0 = std::min(box.x0, corner.x);
        box.y0 = std::min(box.y0, corner.y);
        box.x1 = std::max(box.x1, corner.x);
        box.y1 = std::max(box.y1, corner.y);
    }
    return box;
}

Area areaOf(const Polygon& polygon) {
    const Int128 twice = twiceSignedArea(polygon);
    return Area::squareNanometres((twice < 0 ? -twice : twice) / 2);
}

namespace {

/// Drops points that have others of the set strictly beyond them in all four quarters: they lie
/// inside the hull, and there are many of them where marks are spread or mixed.
void dropInner(Polygon& points) {
    Point sw = points.front(), se = sw, nw = sw, ne = sw; // outermost towards the corners
    for (const Point& each : points) {
        sw = each.x + each.y < sw.x + sw.y ? each : sw;
        ne = each.x + each.y > ne.x + ne.y ? each : ne;
        se = each.x - each.y > se.x - se.y ? each : se;
        nw = each.x - each.y < nw.x - nw.y ? each : nw;
    }
    const Rect inner{std::max(sw.x, nw.x), std::max(sw.y, se.y), std::min(se.x, ne.x),
                     std::min(nw.y, ne.y)};
    std::erase_if(points, [&inner](const Point& each) {
        return inner.x0 < each.x && each.x < inner.x1 && inner.y0 < each.y && each.y < inner.y1;
    });
}

constexpr std::size_t fewPoints = 8; // are sorted sooner than sifted

bool isBefore(const Point& a, const Point& b) { return a.x != b.x ? a.x < b.x : a.y < b.y; }

/// Turns left at every corner and goes round once: its own hull, as marks of knots are.
bool isItsOwnHull(const Polygon& polygon) {
    const std::size_t n = polygon.size();
    std::size_t firsts = 0; // corners that lie before both neighbours
    for (std::size_t i = 0; i < n; ++i) {
        const Point& here = polygon[i];
        const Point& next = polygon[(i + 1) % n];
        const Point& last = polygon[(i + n - 1) % n];
        if (cross(last, here, next) <= 0) {
            return false;
        }
        firsts += isBefore(here, next) && isBefore(here, last) ? 1 : 0;
    }
    return n >= 3 && firsts == 1;
}

} // namespace

Polygon convexHull(const Polygon& polygon) {
    if (isItsOwnHull(polygon)) {
        Polygon hull = polygon;
        std::rotate(hull.begin(), std::min_element(hull.begin(), hull.end(), isBefore), hull.end());
        return hull;
    }
    Polygon points = polygon;
    if (points.size() > fewPoints) {
        dropInner(points);
    }
    std::sort(points.begin(), points.end(), isBefore);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) {
        return points;
    }
    // The lower chain from left to right, then the upper one back (monotone chain).
    Polygon hull;
    hull.reserve(points.size() + 1);
    const auto add = [&hull](const Point& point, std::size_t chainStart) {
        while (hull.size() >= chainStart + 2 &&
               cross(hull[hull.size() - 2], hull.back(), point) <= 0) {
            hull.pop_back();
        }
        hull.push_back(point);
    };
    for (const Point& point : points) {
        add(point, 0);
    }
    const std::size_t upper = hull.size() - 1;
    for (auto point = points.rbegin() + 1; point != points.rend(); ++point) {
        add(*point, upper);
    }
    hull.pop_back();
    return hull;
}

Polygon grown(const Polygon& polygon, Length along, Length across) {
    assert(along >= Length() && across >= Length());
    Polygon corners;
    corners.reserve(polygon.size() * 4);
    for (const Point& corner : polygon) {
        corners.push_back({corner.x - along, corner.y - across});
        corners.push_back({corner.x + along, corner.y - across});
        corners.push_back({corner.x + along, corner.y + across});
        corners.push_back({corner.x - along, corner.y + across});
    }
    return convexHull(corners);
}

} // namespace stavewright
