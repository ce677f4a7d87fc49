#include "core/drawing/OutlineShape.h"

#include <algorithm>
#include <limits>

namespace stavewright::drawing {

Extent extentOf(const Curve& ring) {
    constexpr double far = std::numeric_limits<double>::max();
    if (ring.empty()) {
        return {};
    }
    Extent extent{far, far, -far, -far};
    for (const Spot& spot : ring) {
        extent.lowX = std::min(extent.lowX, spot.x);
        extent.lowY = std::min(extent.lowY, spot.y);
        extent.highX = std::max(extent.highX, spot.x);
        extent.highY = std::max(extent.highY, spot.y);
    }
    return extent;
}

Spot roomiestSpot(const Curve& ring) {
    constexpr int cells = 17;
    constexpr double nearlyAsGood = 0.85;
    const Extent extent = extentOf(ring);
    const Spot middle{(extent.lowX + extent.highX) / 2, (extent.lowY + extent.highY) / 2};
    Spot best = ring.empty() ? middle : ring.front();
    double mostRoom = -1;
    for (int i = 0; i < cells; ++i) {
        const double x = extent.lowX + extent.length() * (i + 0.5) / cells;
        // The middle of the run is tried besides the grid, for outlines thinner than a cell.
        const auto run = longestRunAt(ring, x);
        for (int k = 0; k <= cells; ++k) {
            const double grid = extent.lowY + extent.width() * (k + 0.5) / cells;
            const Spot spot{x, k < cells ? grid : (run ? run->middle() : middle.y)};
            const double room = isInside(spot, ring) ? distanceToEdge(spot, ring) : -1;
            if (room > mostRoom) {
                mostRoom = room;
                best = spot;
            }
        }
    }
    const bool middleWillDo =
        isInside(middle, ring) && distanceToEdge(middle, ring) >= nearlyAsGood * mostRoom;
    return middleWillDo ? middle : best;
}

std::optional<Run> longestRunAt(const Curve& ring, double x) {
    std::vector<double> meets;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const Spot& p = ring[j];
        const Spot& q = ring[i];
        if ((p.x > x) != (q.x > x)) {
            meets.push_back(p.y + (q.y - p.y) * (x - p.x) / (q.x - p.x));
        }
    }
    std::sort(meets.begin(), meets.end());
    std::optional<Run> longest;
    for (std::size_t i = 0; i + 1 < meets.size(); i += 2) {
        const Run run{meets[i], meets[i + 1]};
        if (!longest || run.half() > longest->half()) {
            longest = run;
        }
    }
    return longest;
}

} // namespace stavewright::drawing
