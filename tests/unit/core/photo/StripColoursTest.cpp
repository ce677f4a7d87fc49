#include "core/photo/StripColours.h"

#include <gtest/gtest.h>

namespace stavewright::photo {

namespace {

// CIE 1976 from sRGB under D65: white is L* 100, a* and b* 0 by definition (ISO/CIE 11664-4). Red
// and blue are worked out by hand from the matrix of IEC 61966-2-1: red X 0.4124 Y 0.2126 Z 0.0193
// gives 53.24, 80.09, 67.20; blue X 0.1805 Y 0.0722 Z 0.9505 gives 32.30, 79.19, -107.86.
TEST(StripColours, ColoursAreThoseOfTheStandard) {
    const auto isNear = [](const StripColour& c, int lightness, int a, int b) {
        EXPECT_NEAR(c.lightness, lightness, 5);
        EXPECT_NEAR(c.a, a, 5);
        EXPECT_NEAR(c.b, b, 5);
    };
    isNear(colourOf(255, 255, 255), 10'000, 0, 0);
    isNear(colourOf(0, 0, 0), 0, 0, 0);
    isNear(colourOf(255, 0, 0), 5'324, 8'009, 6'720);
    isNear(colourOf(0, 0, 255), 3'230, 7'919, -10'786);
}

/// A board of 400 by 100 mm whose colour goes from dark at the near edge to light at the far one.
Image stripes() {
    Image image(400, 100);
    for (int y = 0; y < 100; ++y) {
        for (int x = 0; x < 400; ++x) {
            std::uint8_t* pixel = image.at(x, y);
            pixel[0] = pixel[1] = pixel[2] = static_cast<std::uint8_t>(y < 50 ? 200 : 100);
        }
    }
    return image;
}

const Rect shown{Length(), Length(), Length::millimetres(400), Length::millimetres(100)};
const Rect whole = shown;

TEST(StripColours, RunFromTheNearToTheFarEdge) {
    const Image image = stripes();
    const auto colours = stripColours(
        image.view(), shown, whole, [](Point p) { return p; }, 4);
    ASSERT_EQ(colours.size(), 4U);
    EXPECT_EQ(colours[0], colourOf(100, 100, 100)); // the upper edge of the picture is the far one
    EXPECT_EQ(colours[1], colourOf(100, 100, 100));
    EXPECT_EQ(colours[2], colourOf(200, 200, 200));
    EXPECT_EQ(colours[3], colourOf(200, 200, 200));
}

TEST(StripColours, FollowTheFrameOfTheArea) {
    const Image image = stripes();
    const Rect area{Length(), Length(), Length::millimetres(50), Length::millimetres(20)};
    const auto upper = stripColours(
        image.view(), shown, area,
        [](Point p) {
            return Point{p.x + Length::millimetres(100), p.y + Length::millimetres(70)};
        },
        2);
    ASSERT_EQ(upper.size(), 2U);
    EXPECT_EQ(upper[0], colourOf(200, 200, 200));
    EXPECT_EQ(upper[1], colourOf(200, 200, 200));
}

TEST(StripColours, WhatIsNotShownHasNone) {
    const Image image = stripes();
    const Image black(400, 100);
    const auto beside = [](Point p) { return Point{p.x + Length::millimetres(300), p.y}; };
    EXPECT_TRUE(stripColours(image.view(), shown, whole, beside, 3).empty());
    EXPECT_TRUE(stripColours(
                    black.view(), shown, whole, [](Point p) { return p; }, 3)
                    .empty());
    EXPECT_TRUE(stripColours(
                    {}, shown, whole, [](Point p) { return p; }, 3)
                    .empty());
}

} // namespace

} // namespace stavewright::photo
