#pragma once
// Seeded shapes for cross-checks; every failure can be repeated from the seed it prints.

#include <cmath>
#include <random>

#include "core/geometry/PolygonOps.h"

namespace stavewright::test {

class Shapes {
  public:
    explicit Shapes(std::uint32_t seed)
        : m_random(seed) {}

    std::int64_t between(std::int64_t low, std::int64_t high) {
        // Not a distribution of the library: those differ from one to the next.
        return low +
               static_cast<std::int64_t>(m_random() % static_cast<std::uint64_t>(high - low + 1));
    }
    Point spot(const Rect& within) {
        return {Length::micrometres(
                    between(within.x0.inNanometres() / 1000, within.x1.inNanometres() / 1000)),
                Length::micrometres(
                    between(within.y0.inNanometres() / 1000, within.y1.inNanometres() / 1000))};
    }
    /// A rough board: straight ends, both edges wander; up to 12 m, anywhere round the origin.
    Polygon board(int pointsPerEdge) {
        const std::int64_t length = between(600'000, 12'000'000);
        const std::int64_t width = between(90'000, 400'000);
        const std::int64_t x0 = between(-12'000'000, 100);
        const std::int64_t y0 = between(-500'000, 500'000);
        Polygon outline;
        for (int i = 0; i <= pointsPerEdge; ++i) {
            outline.push_back(at(x0 + length * i / pointsPerEdge, y0 + between(0, width / 8)));
        }
        for (int i = pointsPerEdge; i >= 0; --i) {
            outline.push_back(
                at(x0 + length * i / pointsPerEdge, y0 + width - between(0, width / 8)));
        }
        return outline;
    }
    Polygon rectangle(const Rect& within) {
        const Point a = spot(within);
        const Point b = spot(within);
        Rect rect{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
        rect.x1 += Length::micrometres(1);
        rect.y1 += Length::micrometres(1);
        return polygonOf(rect);
    }
    /// A star round a spot: simple, mostly not convex.
    Polygon star(const Rect& within, int corners, std::int64_t reach) {
        const Point centre = spot(within);
        Polygon outline;
        for (int i = 0; i < corners; ++i) {
            const double angle = 6.283185307179586 * i / corners;
            const auto radius = static_cast<double>(between(reach / 4, reach));
            outline.push_back(
                {centre.x + Length::micrometres(std::llround(radius * std::cos(angle))),
                 centre.y + Length::micrometres(std::llround(radius * std::sin(angle)))});
        }
        return outline;
    }
    static Point at(std::int64_t xMicrometres, std::int64_t yMicrometres) {
        return {Length::micrometres(xMicrometres), Length::micrometres(yMicrometres)};
    }

  private:
    std::mt19937_64 m_random;
};

} // namespace stavewright::test
