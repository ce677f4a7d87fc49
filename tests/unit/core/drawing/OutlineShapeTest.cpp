#include "core/drawing/OutlineShape.h"

#include <gtest/gtest.h>

#include "tests/unit/core/drawing/TestShapes.h"

namespace stavewright::drawing {
namespace {

TEST(OutlineShape, TheRoomiestSpotOfASymmetricalShapeIsItsMiddle) {
    const Spot spot = roomiestSpot(curveOf(test::ellipse(3, 4, 2, 1)));
    EXPECT_EQ(pointOf(spot), (Point{test::inch(3), test::inch(4)}));
}

TEST(OutlineShape, TheRoomiestSpotIsInsideEvenWhereTheMiddleIsNot) {
    const Curve angled = curveOf(test::angled());
    const Spot spot = roomiestSpot(angled);
    EXPECT_TRUE(isInside(spot, angled));
    EXPECT_GT(distanceToEdge(spot, angled), 0.35 * 25.4e6);
    const Curve sliver = curveOf(test::shape({{0, 0}, {20, 2}, {20, 2.01}}));
    EXPECT_TRUE(isInside(roomiestSpot(sliver), sliver));
}

TEST(OutlineShape, FindsTheLongestRun) {
    const Curve notched = {{0, 0}, {10, 0}, {10, 9}, {0, 9}, {0, 7}, {6, 7}, {6, 6}, {0, 6}};
    const auto run = longestRunAt(notched, 3);
    ASSERT_TRUE(run);
    EXPECT_DOUBLE_EQ(run->low, 0);
    EXPECT_DOUBLE_EQ(run->high, 6);
    EXPECT_FALSE(longestRunAt(notched, 11));
}

TEST(OutlineShape, NothingHasNoExtent) {
    EXPECT_EQ(extentOf({}).length(), 0);
    const Extent extent = extentOf({{1, 2}, {4, 8}, {2, 3}});
    EXPECT_DOUBLE_EQ(extent.length(), 3);
    EXPECT_DOUBLE_EQ(extent.width(), 6);
}

} // namespace
} // namespace stavewright::drawing
