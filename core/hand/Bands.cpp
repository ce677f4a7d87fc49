#include "core/hand/Bands.h"

#include <algorithm>

namespace stavewright::hand {

namespace {

/// Even-odd test of a point that lies on no edge.
bool isInside(const Polygon& polygon, double x, double y) {
    bool inside = false;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point& p = polygon[i];
        const Point& q = polygon[(i + 1) % polygon.size()];
        if ((number(p.y) > y) != (number(q.y) > y)) {
            const double at = number(p.x) + (number(q.x) - number(p.x)) * (y - number(p.y)) /
                                                (number(q.y) - number(p.y));
            inside ^= x < at;
        }
    }
    return inside;
}

} // namespace

std::vector<Stretch> reachesInto(const Polygon& polygon, Stretch band) {
    struct Reach {
        double low;
        double high;
    };
    std::vector<Reach> reaches; // of edges; between two of them the band is all inside or all out
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point& p = polygon[i];
        const Point& q = polygon[(i + 1) % polygon.size()];
        if (std::max(p.y, q.y) <= band.from || std::min(p.y, q.y) >= band.to) {
            continue;
        }
        const auto within = [&](const Point& end) {
            if (band.from <= end.y && end.y <= band.to) {
                return number(end.x);
            }
            const Length y = std::clamp(end.y, band.from, band.to);
            return number(p.x) + (number(q.x) - number(p.x)) * (number(y) - number(p.y)) /
                                     (number(q.y) - number(p.y));
        };
        reaches.push_back({std::min(within(p), within(q)), std::max(within(p), within(q))});
    }
    std::sort(reaches.begin(), reaches.end(),
              [](const Reach& a, const Reach& b) { return a.low < b.low; });
    std::vector<Reach> joined;
    const double middle = (number(band.from) + number(band.to)) / 2;
    for (const Reach& next : reaches) {
        const bool joins =
            !joined.empty() && (next.low <= joined.back().high ||
                                isInside(polygon, (joined.back().high + next.low) / 2, middle));
        if (joins) {
            joined.back().high = std::max(joined.back().high, next.high);
        } else {
            joined.push_back(next);
        }
    }
    std::vector<Stretch> stretches;
    for (const Reach& each : joined) {
        stretches.push_back({roundedDown(each.low), roundedUp(each.high)});
    }
    return stretches;
}

std::vector<Stretch> uncovered(const Polygon& polygon, Stretch band) {
    std::vector<Length> marks = {-beyond, beyond};
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point& p = polygon[i];
        const Point& q = polygon[(i + 1) % polygon.size()];
        marks.push_back(p.x);
        for (const Length y : {band.from, band.to}) {
            if ((p.y < y) != (q.y < y)) {
                marks.push_back(roundedDown(number(p.x) + (number(q.x) - number(p.x)) *
                                                              (number(y) - number(p.y)) /
                                                              (number(q.y) - number(p.y))));
            }
        }
    }
    std::sort(marks.begin(), marks.end());
    std::vector<Stretch> open;
    for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
        if (marks[i] == marks[i + 1]) {
            continue;
        }
        const auto across = acrossAt(polygon, (marks[i] + marks[i + 1]) / 2);
        const bool holds = across && across->from <= band.from + polygonTolerance &&
                           across->to >= band.to - polygonTolerance;
        if (holds) {
            continue;
        }
        if (!open.empty() && open.back().to == marks[i]) {
            open.back().to = marks[i + 1];
        } else {
            open.push_back({marks[i], marks[i + 1]});
        }
    }
    return open;
}

} // namespace stavewright::hand
