// How wide a polygon is at a place along it.

#include <algorithm>
#include <utility>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

enum class Rounding { Down, Nearest, Up };

/// y of the edge from a to b at x, which lies between them; a.x differs from b.x.
Length heightAt(Point a, Point b, Length x, Rounding rounding) {
    if (b.x < a.x) {
        std::swap(a, b);
    }
    const Int128 run = (b.x - a.x).inNanometres();
    const Int128 rise = ((b.y - a.y) * (x - a.x)).inSquareNanometres();
    const Int128 shift = rounding == Rounding::Down ? 0
                         : rounding == Rounding::Up ? run - 1
                                                    : run / 2;
    const Int128 sum = rise + shift;
    const Int128 floor = sum >= 0 ? sum / run : -((-sum + run - 1) / run);
    return a.y + Length::nanometres(static_cast<std::int64_t>(floor));
}

template <class UseEdge>
void forEachEdge(const Polygon& polygon, UseEdge useEdge) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        useEdge(polygon[i], polygon[(i + 1) % polygon.size()]);
    }
}

/// The y that one edge takes while x runs over the inside of `xs`; nothing when it stays outside.
std::optional<Stretch> heightsWithin(const Point& a, const Point& b, Stretch xs) {
    const Length low = std::max(std::min(a.x, b.x), xs.from);
    const Length high = std::min(std::max(a.x, b.x), xs.to);
    if (a.x == b.x) {
        if (a.x <= xs.from || a.x >= xs.to) {
            return std::nullopt;
        }
        return Stretch{std::min(a.y, b.y), std::max(a.y, b.y)};
    }
    if (low >= high) {
        return std::nullopt;
    }
    return Stretch{
        std::min(heightAt(a, b, low, Rounding::Down), heightAt(a, b, high, Rounding::Down)),
        std::max(heightAt(a, b, low, Rounding::Up), heightAt(a, b, high, Rounding::Up))};
}

/// Even-odd test of a point that lies on no edge. Twice the coordinates, so that the middle of two
/// lengths is exact.
bool isInside(const Polygon& polygon, Length twiceX, Length twiceY) {
    bool inside = false;
    forEachEdge(polygon, [&](const Point& a, const Point& b) {
        if ((a.y * 2 > twiceY) == (b.y * 2 > twiceY)) {
            return;
        }
        const Point& below = a.y < b.y ? a : b;
        const Point& above = a.y < b.y ? b : a;
        const Int128 turn = ((above.x - below.x) * (twiceY - below.y * 2)).inSquareNanometres() -
                            ((above.y - below.y) * (twiceX - below.x * 2)).inSquareNanometres();
        if (turn > 0) {
            inside = !inside;
        }
    });
    return inside;
}

} // namespace

std::optional<Stretch> acrossAt(const Polygon& polygon, Length x) {
    std::optional<Stretch> run;
    const auto include = [&run](Length y) {
        run = run ? Stretch{std::min(run->from, y), std::max(run->to, y)} : Stretch{y, y};
    };
    forEachEdge(polygon, [&](const Point& a, const Point& b) {
        if (x < std::min(a.x, b.x) || x > std::max(a.x, b.x)) {
            return;
        }
        if (a.x == b.x) {
            include(a.y);
            include(b.y);
        } else {
            include(heightAt(a, b, x, Rounding::Nearest));
        }
    });
    return run;
}

std::optional<Stretch> clearAcross(const Polygon& polygon, Stretch xs) {
    if (xs.from >= xs.to) {
        return xs.from == xs.to ? acrossAt(polygon, xs.from) : std::nullopt;
    }
    // A line across xs is free of edges unless its y is taken by one; between two taken runs it
    // lies wholly inside or wholly outside.
    std::vector<Stretch> taken;
    forEachEdge(polygon, [&](const Point& a, const Point& b) {
        if (const auto heights = heightsWithin(a, b, xs)) {
            taken.push_back(*heights);
        }
    });
    std::sort(taken.begin(), taken.end(),
              [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
    std::optional<Stretch> widest;
    Length reached = taken.empty() ? Length() : taken.front().to;
    for (const Stretch& next : taken) {
        const Stretch gap{reached, next.from};
        if (gap.length() > Length() && (!widest || gap.length() > widest->length()) &&
            isInside(polygon, xs.from + xs.to, gap.from + gap.to)) {
            widest = gap;
        }
        reached = std::max(reached, next.to);
    }
    return widest;
}

} // namespace stavewright
