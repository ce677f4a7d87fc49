#include "core/drawing/Clip.h"

#include <gtest/gtest.h>

namespace stavewright::drawing {
namespace {

const Curve square = {{0, 0}, {10, 0}, {10, 10}, {0, 10}};
const Curve notched = {{0, 0}, {10, 0}, {10, 10}, {6, 10}, {6, 4}, {4, 4}, {4, 10}, {0, 10}};

TEST(Clip, KeepsWhatIsInside) {
    const auto parts = insideParts({{2, 2}, {8, 2}, {8, 8}}, square);
    ASSERT_EQ(parts.size(), 1U);
    EXPECT_EQ(parts[0].size(), 3U);
    EXPECT_TRUE(outsideParts({{2, 2}, {8, 2}}, square).empty());
}

TEST(Clip, CutsAtTheEdge) {
    const auto parts = insideParts({{-5, 5}, {15, 5}}, square);
    ASSERT_EQ(parts.size(), 1U);
    EXPECT_DOUBLE_EQ(parts[0].front().x, 0);
    EXPECT_DOUBLE_EQ(parts[0].back().x, 10);
    EXPECT_EQ(outsideParts({{-5, 5}, {15, 5}}, square).size(), 2U);
}

TEST(Clip, CutsOutANotch) {
    const auto parts = insideParts({{-5, 8}, {15, 8}}, notched);
    ASSERT_EQ(parts.size(), 2U);
    EXPECT_DOUBLE_EQ(parts[0].back().x, 4);
    EXPECT_DOUBLE_EQ(parts[1].front().x, 6);
}

TEST(Clip, LeavesNothingOfWhatIsOutside) {
    EXPECT_TRUE(insideParts({{-5, 20}, {15, 20}}, square).empty());
    EXPECT_TRUE(insideParts({{5, 5}}, square).empty());
    EXPECT_TRUE(insideParts({}, square).empty());
    EXPECT_TRUE(insideParts({{0, 0}, {1, 1}}, {}).empty());
    EXPECT_EQ(outsideParts({{0, 0}, {1, 1}}, {}).size(), 1U);
}

TEST(Clip, MeasuresTheWayToTheEdge) {
    EXPECT_DOUBLE_EQ(distanceToEdge({5, 2}, square), 2);
    EXPECT_DOUBLE_EQ(distanceToEdge({13, 14}, square), 5);
    EXPECT_TRUE(isInside({5, 5}, square));
    EXPECT_FALSE(isInside({5, 8}, notched));
}

TEST(Clip, PointsGoThereAndBack) {
    const std::vector<Point> points = {{Length::inches(1, 64), -Length::inches(40)}, {}};
    EXPECT_EQ(pointsOf(curveOf(points)), points);
}

} // namespace
} // namespace stavewright::drawing
