#include "core/drawing/Clip.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stavewright::drawing {

namespace {

Spot between(const Spot& a, const Spot& b, double share) {
    return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
}

/// Shares along a-b where it meets the ring's edges, sorted, with 0 and 1 at the ends.
void meetings(const Spot& a, const Spot& b, const Curve& ring, std::vector<double>& shares) {
    shares.assign({0.0, 1.0});
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const auto [lowX, highX] = std::minmax(a.x, b.x);
    const auto [lowY, highY] = std::minmax(a.y, b.y);
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const Spot& p = ring[j];
        const Spot& q = ring[i];
        if (std::max(p.x, q.x) < lowX || std::min(p.x, q.x) > highX || std::max(p.y, q.y) < lowY ||
            std::min(p.y, q.y) > highY) {
            continue;
        }
        const double ex = q.x - p.x;
        const double ey = q.y - p.y;
        const double cross = dx * ey - dy * ex;
        if (cross == 0) {
            continue; // parallel: the neighbours' corners cut it
        }
        const double along = ((p.x - a.x) * ey - (p.y - a.y) * ex) / cross;
        const double onEdge = ((p.x - a.x) * dy - (p.y - a.y) * dx) / cross;
        if (along > 0 && along < 1 && onEdge >= 0 && onEdge <= 1) {
            shares.push_back(along);
        }
    }
    std::sort(shares.begin(), shares.end());
}

std::vector<Curve> parts(const Curve& curve, const Curve& ring, bool wantInside) {
    std::vector<Curve> result;
    if (ring.size() < 3) {
        return result;
    }
    std::vector<double> shares;
    Curve open;
    const auto finish = [&] {
        if (open.size() >= 2) {
            result.push_back(std::move(open));
        }
        open = Curve();
    };
    for (std::size_t i = 0; i + 1 < curve.size(); ++i) {
        meetings(curve[i], curve[i + 1], ring, shares);
        for (std::size_t k = 0; k + 1 < shares.size(); ++k) {
            if (shares[k] == shares[k + 1]) {
                continue;
            }
            const Spot middle = between(curve[i], curve[i + 1], (shares[k] + shares[k + 1]) / 2);
            if (isInside(middle, ring) != wantInside) {
                finish();
                continue;
            }
            if (open.empty()) {
                open.push_back(between(curve[i], curve[i + 1], shares[k]));
            }
            // A cut that does not change sides leaves no needless point.
            if (k + 2 == shares.size()) {
                open.push_back(curve[i + 1]);
            } else if (isInside(
                           between(curve[i], curve[i + 1], (shares[k + 1] + shares[k + 2]) / 2),
                           ring) != wantInside) {
                open.push_back(between(curve[i], curve[i + 1], shares[k + 1]));
            }
        }
    }
    finish();
    return result;
}

} // namespace

Spot spotOf(const Point& point) {
    return {static_cast<double>(point.x.inNanometres()),
            static_cast<double>(point.y.inNanometres())};
}

Point pointOf(const Spot& spot) {
    return {Length::nanometres(std::llround(spot.x)), Length::nanometres(std::llround(spot.y))};
}

std::vector<Point> pointsOf(const Curve& curve) {
    std::vector<Point> points(curve.size());
    std::transform(curve.begin(), curve.end(), points.begin(), pointOf);
    return points;
}

Curve curveOf(const std::vector<Point>& points) {
    Curve curve(points.size());
    std::transform(points.begin(), points.end(), curve.begin(), spotOf);
    return curve;
}

bool isInside(const Spot& spot, const Curve& ring) {
    bool inside = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const Spot& p = ring[j];
        const Spot& q = ring[i];
        if ((p.y > spot.y) != (q.y > spot.y) &&
            spot.x < p.x + (q.x - p.x) * (spot.y - p.y) / (q.y - p.y)) {
            inside = !inside;
        }
    }
    return inside;
}

double distanceToEdge(const Spot& spot, const Curve& ring) {
    double nearest = std::numeric_limits<double>::max();
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const double ex = ring[i].x - ring[j].x;
        const double ey = ring[i].y - ring[j].y;
        const double square = ex * ex + ey * ey;
        const double along =
            square == 0 ? 0 : ((spot.x - ring[j].x) * ex + (spot.y - ring[j].y) * ey) / square;
        const Spot foot = between(ring[j], ring[i], std::clamp(along, 0.0, 1.0));
        nearest = std::min(nearest, std::hypot(spot.x - foot.x, spot.y - foot.y));
    }
    return nearest;
}

std::vector<Curve> insideParts(const Curve& curve, const Curve& ring) {
    return parts(curve, ring, true);
}
std::vector<Curve> outsideParts(const Curve& curve, const Curve& ring) {
    return ring.size() < 3 ? std::vector<Curve>{curve} : parts(curve, ring, false);
}

} // namespace stavewright::drawing
