#include "core/geometry/ConvexParts.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

Int128 cross(const Point& o, const Point& a, const Point& b) {
    return ((a.x - o.x) * (b.y - o.y)).inSquareNanometres() -
           ((a.y - o.y) * (b.x - o.x)).inSquareNanometres();
}

double distance(const Point& a, const Point& b) {
    return std::hypot(static_cast<double>((b.x - a.x).inNanometres()),
                      static_cast<double>((b.y - a.y).inNanometres()));
}

const Point& cornerAt(const Polygon& ring, std::size_t index) { return ring[index % ring.size()]; }

/// The corner points into the polygon by more than the rounding of earlier cuts explains.
bool isInward(const Polygon& ring, std::size_t index) {
    constexpr double straight = 3; // nanometres that the shorter edge may lean off the longer one
    const Point& before = cornerAt(ring, index + ring.size() - 1);
    const Point& corner = ring[index];
    const Point& after = cornerAt(ring, index + 1);
    const auto turn = static_cast<double>(cross(before, corner, after));
    return -turn > straight * std::max(distance(before, corner), distance(corner, after));
}

struct Cut {
    std::size_t edge = 0; ///< from this corner to the next
    Point at;
};

/// Where the edge that leads to the corner meets the border again when it is drawn on.
std::optional<Cut> cutFrom(const Polygon& ring, std::size_t index) {
    const std::size_t n = ring.size();
    const Point& before = cornerAt(ring, index + n - 1);
    const Point& corner = ring[index];
    const auto dx = static_cast<long double>((corner.x - before.x).inNanometres());
    const auto dy = static_cast<long double>((corner.y - before.y).inNanometres());
    std::optional<Cut> nearest;
    long double nearestReach = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = (i + 1) % n;
        if (i == index || next == index) {
            continue;
        }
        const Int128 from = cross(before, corner, ring[i]);
        const Int128 to = cross(before, corner, ring[next]);
        if ((from > 0 && to > 0) || (from < 0 && to < 0) || from == to) {
            continue;
        }
        const long double share =
            static_cast<long double>(from) / static_cast<long double>(from - to);
        const long double x =
            static_cast<long double>((ring[i].x - corner.x).inNanometres()) +
            share * static_cast<long double>((ring[next].x - ring[i].x).inNanometres());
        const long double y =
            static_cast<long double>((ring[i].y - corner.y).inNanometres()) +
            share * static_cast<long double>((ring[next].y - ring[i].y).inNanometres());
        const long double reach = x * dx + y * dy;
        if (reach > 0 && (!nearest || reach < nearestReach)) {
            nearestReach = reach;
            nearest = Cut{i,
                          {corner.x + Length::nanometres(std::llroundl(x)),
                           corner.y + Length::nanometres(std::llroundl(y))}};
        }
    }
    return nearest;
}

/// The ring's corners from `from` round to `to`, and the end of the cut.
Polygon partOf(const Polygon& ring, std::size_t from, std::size_t to, const Point& cutEnd) {
    Polygon part;
    for (std::size_t i = from;; i = (i + 1) % ring.size()) {
        part.push_back(ring[i]);
        if (i == to) {
            break;
        }
    }
    part.push_back(cutEnd);
    part.erase(std::unique(part.begin(), part.end()), part.end());
    while (part.size() > 1 && part.front() == part.back()) {
        part.pop_back();
    }
    return part;
}

} // namespace

bool isConvex(const Polygon& polygon) {
    const std::size_t n = polygon.size();
    int turnsBack = 0;
    int lastSign = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const Point& a = polygon[i];
        const Point& b = cornerAt(polygon, i + 1);
        if (cross(a, b, cornerAt(polygon, i + 2)) < 0) {
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

std::vector<Polygon> convexPartsOf(const Polygon& polygon) {
    std::vector<Polygon> parts;
    std::vector<Polygon> open = {polygon};
    // Each inward corner is cut once; more cuts than that mean a ring that crosses itself.
    std::size_t cutsLeft = 2 * polygon.size();
    while (!open.empty()) {
        const Polygon ring = std::move(open.back());
        open.pop_back();
        if (ring.size() < 3) {
            continue;
        }
        std::size_t inward = 0;
        while (inward < ring.size() && !isInward(ring, inward)) {
            ++inward;
        }
        if (inward == ring.size()) {
            parts.push_back(ring);
            continue;
        }
        const std::optional<Cut> cut = cutsLeft > 0 ? cutFrom(ring, inward) : std::nullopt;
        if (!cut) {
            parts.push_back(convexHull(ring));
            continue;
        }
        --cutsLeft;
        open.push_back(partOf(ring, inward, cut->edge, cut->at));
        open.push_back(partOf(ring, (cut->edge + 1) % ring.size(), inward, cut->at));
    }
    return parts;
}

} // namespace stavewright
