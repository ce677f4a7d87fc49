// Laws of the polygon adapter, on shapes of board size anywhere round the origin.

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "core/geometry/PolygonOps.h"
#include "tests/property/Generators.h"

namespace stavewright {
namespace {

using namespace property;

RC_GTEST_PROP(Geometry, coverIsTransitive, ()) {
    const Polygon inner = *convexPolygon();
    const Polygon middle = grown(inner, *lengthWithin(0, 5), *lengthWithin(0, 5));
    const Polygon outer = grown(middle, *lengthWithin(0, 5), *lengthWithin(0, 5));
    RC_ASSERT(coveredBy(inner, middle));
    RC_ASSERT(coveredBy(middle, outer));
    RC_ASSERT(coveredBy(inner, outer));
}

RC_GTEST_PROP(Geometry, grownContainsTheOriginalAndReachesAsFarAsAsked, ()) {
    const Polygon shape = *convexPolygon();
    const Length along = *lengthWithin(0, 300);
    const Length across = *lengthWithin(0, 300);
    const Polygon larger = grown(shape, along, across);
    RC_ASSERT(coveredBy(shape, larger));
    RC_ASSERT(coveredWithinTolerance(shape, larger));
    const Rect before = boundingBox(shape);
    RC_ASSERT(boundingBox(larger) ==
              (Rect{before.x0 - along, before.y0 - across, before.x1 + along, before.y1 + across}));
}

RC_GTEST_PROP(Geometry, coverWithoutToleranceImpliesCoverWithIt, ()) {
    const Polygon a = *convexPolygon();
    const Polygon b = *convexPolygon();
    if (coveredBy(a, b)) {
        RC_ASSERT(coveredWithinTolerance(a, b));
    }
    if (overlapsBeyondTolerance(a, b)) {
        RC_ASSERT(interiorsMeet(a, b));
    }
}

RC_GTEST_PROP(Geometry, theOrderOfTheTwoDoesNotMatter, ()) {
    const Polygon a = *convexPolygon();
    const Polygon b = *convexPolygon();
    RC_ASSERT(interiorsMeet(a, b) == interiorsMeet(b, a));
    RC_ASSERT(overlapsBeyondTolerance(a, b) == overlapsBeyondTolerance(b, a));
    RC_ASSERT(intersection(a, b).area == intersection(b, a).area);
}

RC_GTEST_PROP(Geometry, theHullCoversItsCornersAndIsItsOwnHull, ()) {
    const Polygon hull = convexHull(*corners());
    RC_PRE(hull.size() >= 3U);
    RC_ASSERT(convexHull(hull) == hull);
    RC_ASSERT(normalised(hull) == hull);
}

RC_GTEST_PROP(Geometry, framesRoundTripWithinANanometre, ()) {
    const Frame frame = *anyFrame();
    const Point local = *point();
    const Point back = toLocal(frame, toOuter(frame, local));
    RC_ASSERT(abs(back.x - local.x) <= Length::nanometres(1));
    RC_ASSERT(abs(back.y - local.y) <= Length::nanometres(1));
}

RC_GTEST_PROP(Geometry, turningAFrameKeepsARectanglesPlaceInAnother, ()) {
    const Frame frame = *anyFrame();
    const Rect outer = *rectangle();
    const Length inset = std::min(outer.length(), outer.width()) / 4;
    const Rect inner{outer.x0, outer.y0 + inset, outer.x1 - inset, outer.y1};
    RC_ASSERT(coveredWithinTolerance(toOuter(frame, inner), toOuter(frame, outer)));
    const Rect above{outer.x0, outer.y1, outer.x1, outer.y1 + outer.width()};
    RC_ASSERT(!overlapsBeyondTolerance(toOuter(frame, above), toOuter(frame, outer)));
    RC_ASSERT(overlapsBeyondTolerance(toOuter(frame, inner), toOuter(frame, outer)));
}

RC_GTEST_PROP(Geometry, theClearRunIsInsideAndNoWiderThanAnySection, ()) {
    const Polygon shape = *convexPolygon();
    const Rect box = boundingBox(shape);
    const Length from = box.x0 + box.length() / 4;
    const Stretch xs{from, from + box.length() / 2};
    const auto run = clearAcross(shape, xs);
    if (run) {
        RC_ASSERT(coveredWithinTolerance(polygonOf({xs.from, run->from, xs.to, run->to}), shape));
        for (const Length x : {xs.from, xs.to}) {
            RC_ASSERT(run->length() <= acrossAt(shape, x)->length() + Length::nanometres(1));
        }
    }
}

} // namespace
} // namespace stavewright
