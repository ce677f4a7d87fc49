#include "core/photo/JointSearch.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace stavewright::photo {
namespace {

const Rect shown{Length(), Length(), Length::millimetres(800), Length::millimetres(300)};

/// Three staves of 300 mm in all; a dark gap at y = 103 mm, a step of colour at y = 198 mm, and
/// lines along the grain everywhere.
Image laidOut(double gap, double step) {
    Image image(1600, 600); // half a millimetre
    std::mt19937_64 random(3);
    std::normal_distribution<double> noise(0, 6);
    for (int row = 0; row < image.height(); ++row) {
        const double y = 300 - (row + 0.5) / 2;
        for (int column = 0; column < image.width(); ++column) {
            const double x = (column + 0.5) / 2;
            double light = 160 + 8 * std::sin(y * 1.1 + 0.6 * std::sin(x / 90)) + noise(random);
            light += y > 198 ? step : 0;
            light -= std::abs(y - 103) < 0.6 ? gap : 0;
            for (int k = 0; k < 3; ++k) {
                image.at(column, row)[k] = static_cast<std::uint8_t>(std::clamp(light, 1.0, 255.0));
            }
        }
    }
    return image;
}

const std::vector<Length> expected = {Length::millimetres(99), Length::millimetres(203)};

TEST(JointSearch, AGapAndAStepAreFound) {
    const Image image = laidOut(70, 30);
    const auto joints = jointsNear(image.view(), shown, expected, Length::millimetres(12));
    ASSERT_EQ(joints.size(), 2U);
    EXPECT_TRUE(joints[0].isPlain);
    EXPECT_NEAR(joints[0].at.toMillimetres(), 103, 1);
    EXPECT_TRUE(joints[1].isPlain);
    EXPECT_NEAR(joints[1].at.toMillimetres(), 198, 1);
}

TEST(JointSearch, WhereNothingStandsOutTheJointStaysWhereItWasExpected) {
    const Image image = laidOut(0, 0);
    const auto joints = jointsNear(image.view(), shown, expected, Length::millimetres(12));
    ASSERT_EQ(joints.size(), 2U);
    for (std::size_t i = 0; i < joints.size(); ++i) {
        EXPECT_FALSE(joints[i].isPlain);
        EXPECT_EQ(joints[i].at, expected[i]);
    }
}

} // namespace
} // namespace stavewright::photo
