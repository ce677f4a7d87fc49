#pragma once
// Shapes and boards for the property tests. rapidcheck prints the seed of a failure, and RC_PARAMS
// ("seed=...") repeats it.

#include <rapidcheck.h>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/Board.h"

namespace stavewright::property {

/// In nanometres, so that the grid has something to round; bounds in millimetres.
inline rc::Gen<Length> lengthWithin(std::int64_t low, std::int64_t high) {
    return rc::gen::map(rc::gen::inRange<std::int64_t>(low * 1'000'000, high * 1'000'000 + 1),
                        [](std::int64_t n) { return Length::nanometres(n); });
}

inline rc::Gen<Point> point() {
    return rc::gen::apply(
        [](Length x, Length y) {
            return Point{x, y};
        },
        lengthWithin(-12'000, 12'000), lengthWithin(-1'000, 1'000));
}

/// Spots near one another, at least four of them.
inline rc::Gen<Polygon> corners() {
    return rc::gen::exec([] {
        const Point at = *point();
        const int count = *rc::gen::inRange(4, 20);
        Polygon spots;
        for (int i = 0; i < count; ++i) {
            spots.push_back({at.x + *lengthWithin(-900, 900), at.y + *lengthWithin(-300, 300)});
        }
        return spots;
    });
}

/// Convex, and still a polygon on the micrometre grid.
inline rc::Gen<Polygon> convexPolygon() {
    return rc::gen::suchThat(
        rc::gen::map(corners(), [](const Polygon& spots) { return convexHull(spots); }),
        [](const Polygon& hull) { return validatePolygon(hull).ok(); });
}

inline rc::Gen<Rect> rectangle() {
    return rc::gen::apply(
        [](Point at, Length length, Length width) {
            return Rect{at.x, at.y, at.x + length, at.y + width};
        },
        point(), lengthWithin(10, 4'000), lengthWithin(10, 500));
}

/// Any small or large turn, either way.
inline rc::Gen<Frame> anyFrame() {
    return rc::gen::apply(
        [](Point origin, Length run, Length rise) {
            return Frame{origin, run, rise};
        },
        point(), lengthWithin(1, 12'000), lengthWithin(-12'000, 12'000));
}

/// A board with straight ends and wandering edges, warped.
inline rc::Gen<Board> board() {
    return rc::gen::exec([] {
        Board board;
        board.quarter = Quarter{*rc::gen::element(4, 5, 6, 8, 10, 12, 16)};
        board.thinnest = board.quarter.nominal();
        const Length length = *lengthWithin(600, 5'000);
        const Length width = *lengthWithin(100, 400);
        const Length y0 = *lengthWithin(-100, 100);
        const int pieces = *rc::gen::inRange(1, 6);
        for (int i = 0; i <= pieces; ++i) {
            board.outline.push_back({length * i / pieces, y0 + *lengthWithin(0, 20)});
        }
        for (int i = pieces; i >= 0; --i) {
            board.outline.push_back({length * i / pieces, y0 + width - *lengthWithin(0, 20)});
        }
        board.warp = {*lengthWithin(0, 20), *lengthWithin(0, 6), *lengthWithin(0, 12),
                      *rc::gen::element(Warp::Where::Even, Warp::Where::MostlyAtDatumEnd,
                                        Warp::Where::MostlyAtFarEnd)};
        return board;
    });
}

} // namespace stavewright::property
