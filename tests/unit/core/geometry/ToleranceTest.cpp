// The two micrometres: what reaches over by 2 is let pass, what reaches over by 5 is not.

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"
#include "tests/unit/core/geometry/Random.h"

namespace stavewright {
namespace {

constexpr Length mm(std::int64_t n) { return Length::millimetres(n); }
constexpr Length um(std::int64_t n) { return Length::micrometres(n); }

const Polygon board = polygonOf({mm(-2000), mm(-100), mm(10'000), mm(150)});

TEST(CoveredWithinTolerance, acceptsTwoMicrometresAndRejectsFive) {
    for (const std::int64_t over : {0, 1, 2}) {
        EXPECT_TRUE(coveredWithinTolerance(
            polygonOf({mm(-2000), mm(-100) - um(over), mm(0), mm(150) + um(over)}), board))
            << over;
        EXPECT_TRUE(coveredWithinTolerance(
            polygonOf({mm(-2000) - um(over), mm(0), mm(10'000) + um(over), mm(5)}), board))
            << over;
    }
    // over a corner, both ways at once, the distance counts: 1.4 and 7.1 micrometres
    const auto overCorner = [](std::int64_t over) {
        return polygonOf({mm(0), mm(0), mm(10'000) + um(over), mm(150) + um(over)});
    };
    EXPECT_TRUE(coveredWithinTolerance(overCorner(1), board));
    EXPECT_FALSE(coveredWithinTolerance(overCorner(5), board));
    for (const std::int64_t over : {5, 6, 1000}) {
        EXPECT_FALSE(coveredWithinTolerance(
            polygonOf({mm(-2000), mm(-100) - um(over), mm(0), mm(0)}), board));
        EXPECT_FALSE(
            coveredWithinTolerance(polygonOf({mm(0), mm(0), mm(10'000) + um(over), mm(5)}), board));
    }
}

TEST(CoveredWithinTolerance, mindsANotchReachingIn) {
    const auto notchedTo = [](Length depth) -> Polygon {
        return {{mm(0), mm(0)},   {mm(400), mm(0)},  {mm(400), depth},    {mm(600), depth},
                {mm(600), mm(0)}, {mm(1000), mm(0)}, {mm(1000), mm(200)}, {mm(0), mm(200)}};
    };
    const Polygon blank = polygonOf({mm(100), mm(0), mm(900), mm(150)});
    EXPECT_TRUE(coveredWithinTolerance(blank, notchedTo(um(2))));
    EXPECT_FALSE(coveredWithinTolerance(blank, notchedTo(um(5))));
    EXPECT_FALSE(coveredWithinTolerance(blank, notchedTo(mm(20))));
}

TEST(CoveredWithinTolerance, mindsACrookedEdgeBetweenItsCorners) {
    // The near edge bends into the board at its middle; the blank's corners are all inside.
    const auto bentBy = [](Length depth) -> Polygon {
        return {{mm(0), mm(0)},
                {mm(500), depth},
                {mm(1000), mm(0)},
                {mm(1000), mm(200)},
                {mm(0), mm(200)}};
    };
    const Polygon blank = polygonOf({mm(0), mm(0), mm(1000), mm(150)});
    EXPECT_TRUE(coveredWithinTolerance(blank, bentBy(um(2))));
    EXPECT_FALSE(coveredWithinTolerance(blank, bentBy(um(5))));
}

TEST(CoveredWithinTolerance, findsAPocketBehindANarrowMouth) {
    // A hole of 30 mm that opens to the edge through a slit of 2 um.
    const Polygon holed = {{mm(0), mm(0)},    {mm(500), mm(0)},          {mm(500), mm(50)},
                           {mm(485), mm(50)}, {mm(485), mm(80)},         {mm(515), mm(80)},
                           {mm(515), mm(50)}, {mm(500) + um(2), mm(50)}, {mm(500) + um(2), mm(0)},
                           {mm(1000), mm(0)}, {mm(1000), mm(200)},       {mm(0), mm(200)}};
    ASSERT_TRUE(validatePolygon(holed).ok());
    EXPECT_FALSE(coveredWithinTolerance(polygonOf({mm(100), mm(10), mm(900), mm(190)}), holed));
    EXPECT_TRUE(coveredWithinTolerance(polygonOf({mm(100), mm(10), mm(480), mm(190)}), holed));
}

/// In a turned frame: a board of the frame, and a blank that stands over its far edge by `over`.
class Turned : public testing::TestWithParam<int> {
  protected:
    static Frame frame() {
        test::Shapes shapes(static_cast<std::uint32_t>(GetParam()));
        return {test::Shapes::at(shapes.between(-9'000'000, 9'000'000),
                                 shapes.between(-1'000'000, 1'000'000)),
                um(shapes.between(100'000, 5'000'000)), um(shapes.between(-300'000, 300'000))};
    }
};

TEST_P(Turned, coverIsRightAtTwoAndFiveMicrometres) {
    const Frame turned = frame();
    const Polygon outer = toOuter(turned, Rect{mm(0), mm(0), mm(6000), mm(180)});
    const auto blank = [&](std::int64_t over) {
        return toOuter(turned, Rect{mm(1000), mm(30), mm(3000), mm(180) + um(over)});
    };
    EXPECT_TRUE(coveredWithinTolerance(blank(0), outer));
    EXPECT_TRUE(coveredWithinTolerance(blank(2), outer));
    EXPECT_FALSE(coveredWithinTolerance(blank(5), outer));
}

TEST_P(Turned, overlapIsRightAtTwoAndFiveMicrometres) {
    const Frame turned = frame();
    const Polygon left = toOuter(turned, Rect{mm(0), mm(0), mm(700), mm(90)});
    const auto right = [&](std::int64_t over) {
        return toOuter(turned, Rect{mm(700) - um(over), mm(-20), mm(1500), mm(140)});
    };
    const auto above = [&](std::int64_t over) {
        return toOuter(turned, Rect{mm(100), mm(90) - um(over), mm(300), mm(140)});
    };
    for (const std::int64_t over : {-1, 0, 2}) {
        EXPECT_FALSE(overlapsBeyondTolerance(left, right(over))) << over;
        EXPECT_FALSE(overlapsBeyondTolerance(above(over), left)) << over;
    }
    for (const std::int64_t over : {5, 50}) {
        EXPECT_TRUE(overlapsBeyondTolerance(left, right(over))) << over;
        EXPECT_TRUE(overlapsBeyondTolerance(above(over), left)) << over;
    }
}

INSTANTIATE_TEST_SUITE_P(Frames, Turned, testing::Range(1, 41));

TEST(OverlapsBeyondTolerance, containedShapesOverlapHoweverThin) {
    const Polygon hairCheck = polygonOf({mm(0), mm(0), mm(80), um(1)});
    EXPECT_TRUE(overlapsBeyondTolerance(hairCheck, board));
    EXPECT_TRUE(overlapsBeyondTolerance(board, hairCheck));
    EXPECT_TRUE(overlapsBeyondTolerance(board, board));
}

TEST(OverlapsBeyondTolerance, mindsAShapeThatIsNotConvex) {
    // Wane along a bent far edge: 0 to 1000, its inner border dips to 120 in the middle.
    const Polygon wane = {{mm(0), mm(150)},    {mm(500), mm(120)}, {mm(1000), mm(150)},
                          {mm(1000), mm(160)}, {mm(500), mm(130)}, {mm(0), mm(160)}};
    ASSERT_TRUE(validatePolygon(wane).ok());
    const auto blankTo = [](Length y) { return polygonOf({mm(100), mm(0), mm(900), y}); };
    EXPECT_FALSE(overlapsBeyondTolerance(blankTo(mm(120)), wane));
    EXPECT_FALSE(overlapsBeyondTolerance(blankTo(mm(120) + um(2)), wane));
    EXPECT_TRUE(overlapsBeyondTolerance(blankTo(mm(120) + um(5)), wane));
    EXPECT_TRUE(overlapsBeyondTolerance(wane, blankTo(mm(125))));
    // In the bay behind the bend its box meets the wane's, the wane itself does not.
    EXPECT_FALSE(overlapsBeyondTolerance(polygonOf({mm(450), mm(134), mm(550), mm(170)}), wane));
    EXPECT_TRUE(overlapsBeyondTolerance(polygonOf({mm(450), mm(129), mm(550), mm(170)}), wane));
}

TEST(OverlapsBeyondTolerance, flushInANotchOnThreeSides) {
    const Polygon notched = {{mm(0), mm(0)},      {mm(400), mm(0)}, {mm(400), mm(50)},
                             {mm(600), mm(50)},   {mm(600), mm(0)}, {mm(1000), mm(0)},
                             {mm(1000), mm(200)}, {mm(0), mm(200)}};
    const auto plug = [](std::int64_t over) {
        return polygonOf({mm(400) - um(over), mm(-100), mm(600) + um(over), mm(50) + um(over)});
    };
    EXPECT_FALSE(overlapsBeyondTolerance(plug(0), notched));
    EXPECT_FALSE(overlapsBeyondTolerance(plug(2), notched));
    EXPECT_TRUE(overlapsBeyondTolerance(plug(5), notched));
}

} // namespace
} // namespace stavewright
