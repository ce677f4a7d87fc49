#include "core/photo/JointSearch.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <utility>

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

/// Two staves that lay askew by `lean` on their length, `gap` of floor between them, in poor light:
/// darker towards one end, grain that leans the other way, two knots on the joint.
Image askew(double lean, double gap, std::uint64_t seed) {
    Image image(1600, 600);
    std::mt19937_64 random(seed);
    std::normal_distribution<double> noise(0, 7);
    for (int row = 0; row < image.height(); ++row) {
        const double y = 300 - (row + 0.5) / 2;
        for (int column = 0; column < image.width(); ++column) {
            const double x = (column + 0.5) / 2;
            const double joint = 150 + lean * (x / 800 - 0.5);
            double light = (y > joint ? 165 : 158) - x / 20;
            light += 9 * std::sin(y * 0.9 - x / 60 + 0.8 * std::sin(x / 70));
            if (std::abs(y - joint) < gap / 2) {
                light = 70;
            }
            for (const double knot : {180.0, 520.0}) {
                light = std::hypot(x - knot, y - 158) < 14 ? 60 : light;
            }
            light += noise(random);
            for (int k = 0; k < 3; ++k) {
                image.at(column, row)[k] = static_cast<std::uint8_t>(std::clamp(light, 1.0, 255.0));
            }
        }
    }
    return image;
}

TEST(JointSearch, StavesThatLayAskewAndApartAreFollowed) {
    constexpr std::array<std::pair<double, double>, 3> laid = {
        {{-5.0, 1.6}, {3.0, 6.0}, {6.0, 3.0}}};
    for (const auto& [lean, gap] : laid) {
        const Image image = askew(lean, gap, 11);
        const auto joints =
            jointsNear(image.view(), shown, {Length::millimetres(146)}, Length::millimetres(15));
        ASSERT_TRUE(joints[0].isPlain) << lean << ", " << gap;
        EXPECT_NEAR(joints[0].at.toMillimetres(), 150, 0.6) << lean << ", " << gap;
        EXPECT_NEAR(joints[0].lean.toMillimetres(), lean, 1.1) << lean << ", " << gap;
        EXPECT_NEAR(joints[0].gap.toMillimetres(), gap, 0.8) << lean << ", " << gap;
    }
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
