#include "core/geometry/PolygonOps.h"

#include <cmath>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace stavewright {
namespace {

constexpr Length mm(std::int64_t n) { return Length::millimetres(n); }
constexpr Length um(std::int64_t n) { return Length::micrometres(n); }
constexpr Length nm(std::int64_t n) { return Length::nanometres(n); }

Polygon square(std::int64_t x, std::int64_t y, std::int64_t size) {
    return polygonOf({mm(x), mm(y), mm(x + size), mm(y + size)});
}

/// 1000 x 200 mm with a notch from 400 to 600 mm, 50 mm deep, in its near edge.
const Polygon notched = {{mm(0), mm(0)},      {mm(400), mm(0)}, {mm(400), mm(50)},
                         {mm(600), mm(50)},   {mm(600), mm(0)}, {mm(1000), mm(0)},
                         {mm(1000), mm(200)}, {mm(0), mm(200)}};

TEST(PolygonMaking, boxAreaAndRectangle) {
    EXPECT_EQ(boundingBox(notched), (Rect{mm(0), mm(0), mm(1000), mm(200)}));
    EXPECT_EQ(areaOf(notched), mm(1000) * mm(200) - mm(200) * mm(50));
    EXPECT_EQ(areaOf(polygonOf({mm(-5), mm(-5), mm(5), mm(7)})), mm(10) * mm(12));
}

TEST(PolygonMaking, normalisedTurnsAndDropsRepeats) {
    const Polygon clockwise = {{mm(0), mm(0)}, {mm(0), mm(5)}, {mm(0), mm(5)},
                               {mm(5), mm(5)}, {mm(5), mm(0)}, {mm(0), mm(0)}};
    const Polygon ring = normalised(clockwise);
    EXPECT_EQ(ring.size(), 4U);
    EXPECT_TRUE(validatePolygon(ring).ok());
    EXPECT_EQ(areaOf(ring), mm(5) * mm(5));
}

TEST(PolygonMaking, hullOfTheNotchedBoardIsItsRectangle) {
    EXPECT_EQ(areaOf(convexHull(notched)), mm(1000) * mm(200));
    EXPECT_EQ(convexHull(notched).size(), 4U);
}

TEST(PolygonMaking, hullOfAConvexRingBeginsAtItsLeftmostCorner) {
    const Polygon ring = {{mm(5), mm(5)}, {mm(0), mm(9)}, {mm(-5), mm(5)}, {mm(0), mm(0)}};
    const Polygon hull = {{mm(-5), mm(5)}, {mm(0), mm(0)}, {mm(5), mm(5)}, {mm(0), mm(9)}};
    EXPECT_EQ(convexHull(ring), hull);
    EXPECT_EQ(convexHull({ring.rbegin(), ring.rend()}), hull); // the other way round
}

TEST(PolygonMaking, hullOfARingThatGoesRoundTwiceIsNotTheRing) {
    // A star of five points turns left at every corner.
    const Polygon star = {{mm(0), mm(100)},
                          {mm(-59), mm(-81)},
                          {mm(95), mm(31)},
                          {mm(-95), mm(31)},
                          {mm(59), mm(-81)}};
    const Polygon hull = {{mm(-95), mm(31)},
                          {mm(-59), mm(-81)},
                          {mm(59), mm(-81)},
                          {mm(95), mm(31)},
                          {mm(0), mm(100)}};
    EXPECT_EQ(convexHull(star), hull);
}

TEST(PolygonMaking, hullOfManyPointsHoldsThemAllOnItsCornersAlone) {
    std::mt19937_64 random(5);
    const auto turnsRight = [](const Point& from, const Point& to, const Point& third) {
        return (to.x - from.x) * (third.y - from.y) < (to.y - from.y) * (third.x - from.x);
    };
    for (const std::int64_t grid : {3, 40, 1'000'000}) { // many on one line, or none
        for (int round = 0; round < 60; ++round) {
            Polygon points;
            for (std::size_t i = 0; i < 3 + random() % 200; ++i) {
                const auto drawn = [&] {
                    return Length::nanometres(
                        static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(grid)) +
                        static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(grid)));
                };
                points.push_back({drawn(), drawn()});
            }
            const Polygon hull = convexHull(points);
            ASSERT_FALSE(hull.empty());
            for (std::size_t i = 0; i < hull.size(); ++i) {
                EXPECT_NE(std::find(points.begin(), points.end(), hull[i]), points.end());
                const Point& next = hull[(i + 1) % hull.size()];
                for (const Point& each : points) {
                    EXPECT_FALSE(turnsRight(hull[i], next, each));
                }
                if (hull.size() > 2) { // no corner on the line between its neighbours
                    EXPECT_TRUE(turnsRight(hull[i], hull[(i + 2) % hull.size()], next));
                }
            }
        }
    }
}

TEST(PolygonMaking, grownRectangleGrowsOnAllSides) {
    EXPECT_EQ(boundingBox(grown(square(0, 0, 10), mm(3), mm(2))),
              (Rect{mm(-3), mm(-2), mm(13), mm(12)}));
    EXPECT_EQ(areaOf(grown(square(0, 0, 10), mm(3), mm(2))), mm(16) * mm(14));
}

TEST(PolygonMaking, ellipsePolygonContainsTheEllipseAndHugsIt) {
    const Polygon polygon =
        ellipsePolygon({mm(100), mm(-50)}, mm(40), mm(20), /*turnMicroradians=*/300'000);
    ASSERT_TRUE(validatePolygon(polygon).ok());
    for (int degree = 0; degree < 360; ++degree) {
        const double angle = degree * 3.14159265358979 / 180;
        const double u = 20e6 * std::cos(angle);
        const double v = 10e6 * std::sin(angle);
        const double x = 100e6 + u * std::cos(0.3) - v * std::sin(0.3);
        const double y = -50e6 + u * std::sin(0.3) + v * std::cos(0.3);
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const Point& a = polygon[i];
            const Point& b = polygon[(i + 1) % polygon.size()];
            const auto ax = static_cast<double>(a.x.inNanometres());
            const auto ay = static_cast<double>(a.y.inNanometres());
            const double dx = static_cast<double>(b.x.inNanometres()) - ax;
            const double dy = static_cast<double>(b.y.inNanometres()) - ay;
            ASSERT_GE((dx * (y - ay) - dy * (x - ax)) / std::hypot(dx, dy), 0) << degree;
        }
    }
    const double ellipse = 3.14159265358979 * 20 * 10;
    const double ours = areaOf(polygon).toSquareInches() * 25.4 * 25.4;
    EXPECT_LT(ours, ellipse * 1.02);
}

struct BadRing {
    const char* name;
    Polygon ring;
    const char* sentence;
};

class ValidatePolygon : public testing::TestWithParam<BadRing> {};

TEST_P(ValidatePolygon, namesWhatIsWrongAndWhere) {
    const Status status = validatePolygon(GetParam().ring);
    ASSERT_FALSE(status.ok());
    EXPECT_EQ(status.error().code, ErrorCode::BadInput);
    EXPECT_THAT(status.error().message, testing::HasSubstr(GetParam().sentence));
}

INSTANTIATE_TEST_SUITE_P(
    Rings, ValidatePolygon,
    testing::Values(
        BadRing{"empty", {}, "has 0 corners; at least 3"},
        BadRing{"two", {{mm(0), mm(0)}, {mm(1), mm(0)}}, "has 2 corners; at least 3"},
        BadRing{"repeat",
                {{mm(0), mm(0)}, {mm(9), mm(0)}, {mm(9), mm(0)}, {mm(0), mm(9)}},
                "corner 3 (x 9 mm, y 0 mm) repeats"},
        BadRing{"closed",
                {{mm(0), mm(0)}, {mm(9), mm(0)}, {mm(0), mm(9)}, {mm(0), mm(0)}},
                "corner 1 (x 0 mm, y 0 mm) repeats"},
        BadRing{"sameMicrometre",
                {{mm(0), mm(0)}, {mm(9), mm(0)}, {mm(9), nm(400)}, {mm(0), mm(9)}},
                "corner 3 (x 9 mm, y"},
        BadRing{"crossing",
                {{mm(0), mm(0)}, {mm(9), mm(9)}, {mm(9), mm(0)}, {mm(0), mm(9)}},
                "edge from corner 1 (x 0 mm, y 0 mm) meets its edge from corner 3"},
        BadRing{"touching",
                {{mm(0), mm(0)}, {mm(20), mm(0)}, {mm(20), mm(9)}, {mm(10), mm(0)}, {mm(0), mm(9)}},
                "may not cross or touch"},
        BadRing{"spike",
                {{mm(0), mm(0)}, {mm(9), mm(0)}, {mm(20), mm(0)}, {mm(9), mm(0)}, {mm(9), mm(9)}},
                "runs back over itself at corner 3"},
        BadRing{"flat", {{mm(0), mm(0)}, {mm(9), mm(0)}, {mm(5), mm(0)}}, "runs back over itself"},
        BadRing{"clockwise", {{mm(0), mm(0)}, {mm(0), mm(9)}, {mm(9), mm(0)}}, "run clockwise"},
        BadRing{"far", {{mm(0), mm(0)}, {mm(100'001), mm(0)}, {mm(0), mm(9)}}, "farther than"}),
    [](const auto& ring) { return ring.param.name; });

TEST(ValidatePolygonGood, acceptsBoardsAndStraightCorners) {
    EXPECT_TRUE(validatePolygon(notched).ok());
    EXPECT_TRUE(
        validatePolygon({{mm(0), mm(0)}, {mm(5), mm(0)}, {mm(9), mm(0)}, {mm(0), mm(9)}}).ok());
}

TEST(CoveredBy, flushIsInsideAndOneMicrometreIsNot) {
    const Polygon board = square(0, 0, 100);
    EXPECT_TRUE(coveredBy(board, board));
    EXPECT_TRUE(coveredBy(square(0, 50, 50), board));
    EXPECT_FALSE(coveredBy(polygonOf({mm(0), mm(0), mm(100) + um(1), mm(50)}), board));
    EXPECT_FALSE(coveredBy(board, square(0, 0, 99)));
}

TEST(CoveredBy, mindsTheNotch) {
    EXPECT_TRUE(coveredBy(polygonOf({mm(0), mm(50), mm(1000), mm(200)}), notched));
    EXPECT_FALSE(coveredBy(polygonOf({mm(0), mm(50) - um(1), mm(1000), mm(200)}), notched));
    EXPECT_TRUE(coveredBy(polygonOf({mm(600), mm(0), mm(1000), mm(200)}), notched));
    EXPECT_FALSE(coveredBy(polygonOf({mm(450), mm(10), mm(550), mm(40)}), notched));
}

TEST(CoveredBy, aLineOrASpotIsJudgedToo) {
    const Polygon line = {{mm(300), mm(10)}, {mm(390), mm(10)}, {mm(300), mm(10)}};
    const Polygon longLine = {{mm(300), mm(10)}, {mm(410), mm(10)}, {mm(300), mm(10)}};
    EXPECT_TRUE(coveredBy(line, notched));
    EXPECT_FALSE(coveredBy(longLine, notched));
    EXPECT_TRUE(coveredBy({{mm(10), mm(10)}}, notched));
    EXPECT_FALSE(coveredBy({{mm(500), mm(10)}}, notched));
}

TEST(InteriorsMeet, contactIsNotEnough) {
    const Polygon a = square(0, 0, 100);
    EXPECT_FALSE(interiorsMeet(a, square(100, 0, 50)));
    EXPECT_FALSE(interiorsMeet(a, square(100, 100, 50)));
    EXPECT_TRUE(interiorsMeet(a, polygonOf({mm(100) - um(1), mm(0), mm(150), mm(50)})));
    EXPECT_TRUE(interiorsMeet(a, a));
    EXPECT_TRUE(interiorsMeet(a, square(10, 10, 5)));
    EXPECT_TRUE(interiorsMeet(square(10, 10, 5), a));
    EXPECT_FALSE(interiorsMeet(polygonOf({mm(400), mm(0), mm(600), mm(50)}), notched));
    EXPECT_TRUE(interiorsMeet(polygonOf({mm(400), mm(0), mm(600), mm(50) + um(1)}), notched));
}

TEST(InteriorsMeet, aStripOverANotchIsJudgedByItsEndsToo) {
    // Its middle lies in the notch, or on the notch's edge; its ends lie on the board.
    EXPECT_TRUE(interiorsMeet(polygonOf({mm(390), mm(10), mm(610), mm(30)}), notched));
    EXPECT_TRUE(interiorsMeet(polygonOf({mm(450), mm(40), mm(550), mm(60)}), notched));
    EXPECT_TRUE(interiorsMeet(notched, polygonOf({mm(390), mm(10), mm(610), mm(30)})));
    EXPECT_FALSE(interiorsMeet(polygonOf({mm(450), mm(10), mm(550), mm(30)}), notched));
    EXPECT_TRUE(interiorsMeet(polygonOf({mm(450), mm(60), mm(550), mm(80)}), notched));
}

TEST(Intersection, areaAndPieces) {
    const Overlap overlap = intersection(polygonOf({mm(300), mm(-10), mm(700), mm(20)}), notched);
    EXPECT_EQ(overlap.area, mm(100) * mm(20) + mm(100) * mm(20));
    EXPECT_EQ(overlap.pieces.size(), 2U);
    EXPECT_TRUE(intersection(square(0, 0, 1), square(5, 5, 1)).pieces.empty());
}

TEST(AcrossAt, lowestAndHighest) {
    EXPECT_EQ(acrossAt(notched, mm(100)), (Stretch{mm(0), mm(200)}));
    EXPECT_EQ(acrossAt(notched, mm(500)), (Stretch{mm(50), mm(200)}));
    EXPECT_EQ(acrossAt(notched, mm(0)), (Stretch{mm(0), mm(200)}));
    EXPECT_EQ(acrossAt(notched, mm(1001)), std::nullopt);
    const Polygon tapered = {
        {mm(0), mm(0)}, {mm(1000), mm(10)}, {mm(1000), mm(90)}, {mm(0), mm(100)}};
    EXPECT_EQ(acrossAt(tapered, mm(500)), (Stretch{mm(5), mm(95)}));
}

TEST(ClearAcross, widestStraightRun) {
    EXPECT_EQ(clearAcross(notched, {mm(0), mm(400)}), (Stretch{mm(0), mm(200)}));
    EXPECT_EQ(clearAcross(notched, {mm(0), mm(400) + um(1)}), (Stretch{mm(50), mm(200)}));
    EXPECT_EQ(clearAcross(notched, {mm(0), mm(1000)}), (Stretch{mm(50), mm(200)}));
    EXPECT_EQ(clearAcross(notched, {mm(900), mm(1001)}), std::nullopt);
    EXPECT_EQ(clearAcross(notched, {mm(-10), mm(-1)}), std::nullopt);
    const Polygon tapered = {
        {mm(0), mm(0)}, {mm(1000), mm(10)}, {mm(1000), mm(90)}, {mm(0), mm(100)}};
    EXPECT_EQ(clearAcross(tapered, {mm(0), mm(500)}), (Stretch{mm(5), mm(95)}));
    EXPECT_EQ(clearAcross(tapered, {mm(500), mm(500)}), (Stretch{mm(5), mm(95)}));
}

TEST(ClearAcross, aCrookedBoardLosesItsOwnCrook) {
    // Both edges rise by 30 mm in the middle: the straight run is 30 mm narrower.
    const Polygon crooked = {{mm(0), mm(0)},      {mm(500), mm(30)},  {mm(1000), mm(0)},
                             {mm(1000), mm(150)}, {mm(500), mm(180)}, {mm(0), mm(150)}};
    EXPECT_EQ(clearAcross(crooked, {mm(0), mm(1000)}), (Stretch{mm(30), mm(150)}));
}

TEST(Frame, aParallelFrameIsExact) {
    const Frame frame{{mm(100), mm(-7)}, nm(1), Length()};
    EXPECT_EQ(toOuter(frame, Point{nm(3), nm(-5)}), (Point{mm(100) + nm(3), mm(-7) - nm(5)}));
    EXPECT_EQ(toLocal(frame, toOuter(frame, Point{mm(12'000), nm(1)})), (Point{mm(12'000), nm(1)}));
    const Frame about{{mm(100), mm(0)}, nm(-1), Length()};
    EXPECT_EQ(toOuter(about, Point{mm(1), mm(2)}), (Point{mm(99), mm(-2)}));
}

TEST(Frame, aThreeFourFiveTriangle) {
    const Frame frame{{mm(10), mm(20)}, mm(4), mm(3)};
    EXPECT_EQ(toOuter(frame, Point{mm(5), mm(0)}), (Point{mm(14), mm(23)}));
    EXPECT_EQ(toOuter(frame, Point{mm(0), mm(5)}), (Point{mm(7), mm(24)}));
    EXPECT_EQ(toLocal(frame, Point{mm(14), mm(23)}), (Point{mm(5), mm(0)}));
    EXPECT_EQ(areaOf(toOuter(frame, Rect{mm(0), mm(0), mm(50), mm(5)})), mm(50) * mm(5));
}

} // namespace
} // namespace stavewright
