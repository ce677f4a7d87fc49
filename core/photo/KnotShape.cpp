#include "core/photo/KnotShape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace stavewright::photo {

namespace {

constexpr std::size_t directions = 24;
// How far the rim may lie from that of the ellipse in the window.
constexpr double leastReach = 0.8;
constexpr double mostReach = 1.2;

struct Oval {
    double x = 0;
    double y = 0;
    double rx = 0;
    double ry = 0;
    [[nodiscard]] Pixels at(double angle, double reach) const {
        return {x + reach * rx * std::cos(angle), y + reach * ry * std::sin(angle)};
    }
};

double lightAt(const GrainGrid& grid, Pixels p, double otherwise) {
    const int x = static_cast<int>(std::floor(p.x));
    const int y = static_cast<int>(std::floor(p.y));
    if (x < 0 || y < 0 || x >= grid.columns() || y >= grid.rows() || !grid.isWood(x, y)) {
        return otherwise;
    }
    return grid.lightAt(x, y);
}

/// Where, going outwards, the light turns from the knot's to the wood's: the steepest step, with
/// some liking for the rim of the oval.
double rimAt(const GrainGrid& grid, const Oval& oval, double angle) {
    constexpr double pace = 0.04;
    double best = 1;
    double bestStep = 25; // thousandths; weaker steps are grain
    for (double reach = leastReach; reach <= mostReach; reach += pace) {
        const double inner = lightAt(grid, oval.at(angle, reach - 0.1), 0);
        const double outer = lightAt(grid, oval.at(angle, reach + 0.1), 0);
        const double step = (outer - inner) * (1 - 1.5 * std::abs(reach - 1));
        if (step > bestStep) {
            bestStep = step;
            best = reach;
        }
    }
    return best;
}

} // namespace

KnotShape shapeOf(const GrainGrid& grid, const FoundKnot& knot) {
    const Oval oval{(knot.x0 + knot.x1) / 2, (knot.y0 + knot.y1) / 2, (knot.x1 - knot.x0) / 2,
                    (knot.y1 - knot.y0) / 2};
    std::array<double, directions> reach{};
    for (std::size_t d = 0; d < directions; ++d) {
        reach[d] = rimAt(grid, oval, 2 * std::numbers::pi * static_cast<double>(d) / directions);
    }
    KnotShape shape;
    for (std::size_t d = 0; d < directions; ++d) {
        // The middle of five neighbours: one step astray does not dent the outline.
        std::array<double, 5> near{};
        for (std::size_t k = 0; k < near.size(); ++k) {
            near[k] = reach[(d + directions + k - 2) % directions];
        }
        std::sort(near.begin(), near.end());
        const Pixels p =
            oval.at(2 * std::numbers::pi * static_cast<double>(d) / directions, near[2]);
        shape.ring.push_back({std::clamp(p.x, 0.0, static_cast<double>(grid.columns())),
                              std::clamp(p.y, 0.0, static_cast<double>(grid.rows()))});
    }
    shape.kind = trainedKindModel().kindOf(measure(grid, windowOf(knot)));
    return shape;
}

} // namespace stavewright::photo
