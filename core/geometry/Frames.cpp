// Frames at a small angle. The turn is given by two integers, so the same frame turns alike
// everywhere; a frame parallel to the outer one is exact.

#include <cassert>
#include <cmath>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

/// The frame's direction as a unit vector. Long double keeps 12 m to a thousandth of a nanometre.
struct Direction {
    long double along;
    long double up;
};

Direction directionOf(const Frame& frame) {
    const auto run = static_cast<long double>(frame.run.inNanometres());
    const auto rise = static_cast<long double>(frame.rise.inNanometres());
    const long double norm = std::sqrt(run * run + rise * rise);
    assert(norm > 0); // a frame has a direction
    return {run / norm, rise / norm};
}

Length rounded(long double nanometres) { return Length::nanometres(std::llroundl(nanometres)); }

Point turned(Point point, long double along, long double up) {
    const auto x = static_cast<long double>(point.x.inNanometres());
    const auto y = static_cast<long double>(point.y.inNanometres());
    return {rounded(x * along - y * up), rounded(x * up + y * along)};
}

/// Parallel to the outer one, or turned half round.
Point straightBy(const Frame& frame, Point point) {
    assert(frame.run != Length());
    return frame.run > Length() ? point : Point{-point.x, -point.y};
}

/// `point` turned with the frame, or back.
Point turnedBy(const Frame& frame, Point point, bool back) {
    if (frame.isParallel()) {
        return straightBy(frame, point);
    }
    const Direction direction = directionOf(frame);
    return turned(point, direction.along, back ? -direction.up : direction.up);
}

} // namespace

Point toOuter(const Frame& frame, Point local) {
    const Point offset = turnedBy(frame, local, false);
    return {frame.origin.x + offset.x, frame.origin.y + offset.y};
}

Point toLocal(const Frame& frame, Point outer) {
    return turnedBy(frame, {outer.x - frame.origin.x, outer.y - frame.origin.y}, true);
}

Polygon toOuter(const Frame& frame, const Rect& local) {
    Polygon outer = polygonOf(local);
    const Direction direction = directionOf(frame);
    for (Point& corner : outer) {
        const Point offset = frame.isParallel() ? straightBy(frame, corner)
                                                : turned(corner, direction.along, direction.up);
        corner = {frame.origin.x + offset.x, frame.origin.y + offset.y};
    }
    return outer;
}

Polygon toLocal(const Frame& frame, const Polygon& outer) {
    Polygon local = outer;
    for (Point& corner : local) {
        corner = toLocal(frame, corner);
    }
    return local;
}

} // namespace stavewright
