// Whether a ring can be used as a polygon, decided on the micrometre grid, where it will be judged.

#include <algorithm>
#include <string>

#include "core/geometry/Grid.h"
#include "core/geometry/PolygonOps.h"
#include "core/units/LengthText.h"

namespace stavewright {

namespace {

using grid::GridPoint;

/// Far beyond any board, and far inside what the grid's products can hold.
constexpr Length farthest = Length::millimetres(100'000);

std::string textOf(const Point& point) {
    const LengthStyle style{UnitSystem::Millimetres, 16, true};
    return "(x " + formatLength(point.x, style) + ", y " + formatLength(point.y, style) + ")";
}

std::string cornerText(const Polygon& polygon, std::size_t index) {
    return "corner " + std::to_string(index + 1) + " " + textOf(polygon[index]);
}

Error badPolygon(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), ""}; }

int side(const GridPoint& from, const GridPoint& to, const GridPoint& point) {
    const std::int64_t turn = grid::cross(from, to, point);
    return turn > 0 ? 1 : (turn < 0 ? -1 : 0);
}

/// `point` lies on the line through from and to: is it between them?
bool isBetween(const GridPoint& from, const GridPoint& to, const GridPoint& point) {
    return std::min(from.x, to.x) <= point.x && point.x <= std::max(from.x, to.x) &&
           std::min(from.y, to.y) <= point.y && point.y <= std::max(from.y, to.y);
}

bool edgesTouch(const GridPoint& a, const GridPoint& b, const GridPoint& c, const GridPoint& d) {
    const int sideC = side(a, b, c);
    const int sideD = side(a, b, d);
    const int sideA = side(c, d, a);
    const int sideB = side(c, d, b);
    if (sideC * sideD < 0 && sideA * sideB < 0) {
        return true;
    }
    return (sideC == 0 && isBetween(a, b, c)) || (sideD == 0 && isBetween(a, b, d)) ||
           (sideA == 0 && isBetween(c, d, a)) || (sideB == 0 && isBetween(c, d, b));
}

/// The edge from b to c runs back over the one from a to b.
bool turnsBack(const GridPoint& a, const GridPoint& b, const GridPoint& c) {
    const std::int64_t forward = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
    return side(a, b, c) == 0 && forward < 0;
}

} // namespace

Status validatePolygon(const Polygon& polygon) {
    const std::size_t n = polygon.size();
    if (n < 3) {
        return badPolygon("The outline has " + std::to_string(n) +
                          (n == 1 ? " corner" : " corners") + "; at least 3 are needed.");
    }
    std::vector<GridPoint> ring;
    ring.reserve(n);
    for (std::size_t i = 0; i < n; ++i) {
        if (abs(polygon[i].x) > farthest || abs(polygon[i].y) > farthest) {
            return badPolygon("The outline's " + cornerText(polygon, i) +
                              " is farther than 100000 mm from the datum.");
        }
        ring.push_back(grid::onGrid(polygon[i]));
    }
    for (std::size_t i = 0; i < n; ++i) {
        if (ring[i] == ring[(i + 1) % n]) {
            return badPolygon("The outline's " + cornerText(polygon, (i + 1) % n) +
                              " repeats the corner before it; each corner stands once, the first "
                              "one too.");
        }
    }
    for (std::size_t i = 0; i < n; ++i) {
        if (turnsBack(ring[i], ring[(i + 1) % n], ring[(i + 2) % n])) {
            return badPolygon("The outline runs back over itself at " +
                              cornerText(polygon, (i + 1) % n) + ".");
        }
    }
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i + 2; j < n; ++j) {
            const bool neighbours = i == 0 && j == n - 1;
            if (!neighbours && edgesTouch(ring[i], ring[i + 1], ring[j], ring[(j + 1) % n])) {
                return badPolygon("The outline's edge from " + cornerText(polygon, i) +
                                  " meets its edge from " + cornerText(polygon, j) +
                                  "; an outline may not cross or touch itself.");
            }
        }
    }
    Int128 twiceArea = 0;
    for (std::size_t i = 1; i + 1 < n; ++i) {
        twiceArea += grid::cross(ring[0], ring[i], ring[i + 1]);
    }
    if (twiceArea <= 0) {
        return badPolygon("The outline's corners, from " + cornerText(polygon, 0) +
                          " on, run clockwise; they must run counter-clockwise.");
    }
    return Done{};
}

} // namespace stavewright
