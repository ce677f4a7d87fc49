// Textures whose lines run at known angles.

#include "core/photo/EdgeLines.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace stavewright::photo {
namespace {

constexpr double perMm = 1.25; ///< pixels, about as fine as a job's pictures are
const Rect shown{Length(), Length(), Length::millimetres(600), Length::millimetres(100)};
const Rect strip{Length::millimetres(10), Length::millimetres(4), Length::millimetres(590),
                 Length::millimetres(26)};

/// Rings 7 mm apart that rise at `degrees`, under noise of the camera; y of the wood runs up.
Image figure(double degrees, double contrast, double noise) {
    Image image(static_cast<int>(600 * perMm), static_cast<int>(100 * perMm));
    std::mt19937_64 random(7);
    std::normal_distribution<double> grain(0, noise);
    const double angle = degrees * std::numbers::pi / 180;
    for (int row = 0; row < image.height(); ++row) {
        for (int column = 0; column < image.width(); ++column) {
            const double x = (column + 0.5) / perMm;
            const double y = 100 - (row + 0.5) / perMm;
            const double across = y * std::cos(angle) - x * std::sin(angle);
            const double light =
                150 + contrast * std::sin(2 * std::numbers::pi * across / 7) + grain(random);
            for (int k = 0; k < 3; ++k) {
                image.at(column, row)[k] = static_cast<std::uint8_t>(std::clamp(light, 1.0, 255.0));
            }
        }
    }
    return image;
}

Point same(Point at) { return at; }

TEST(EdgeLines, AreFoundWithinADegree) {
    for (const double degrees :
         {-60.0, -30.0, -15.0, -5.0, -2.0, 0.0, 1.0, 4.0, 12.0, 20.0, 45.0}) {
        const Image image = figure(degrees, 25, 8);
        const auto lines = linesIn(image.view(), shown, strip, same);
        ASSERT_TRUE(lines) << degrees;
        EXPECT_NEAR(lines->angleTenths, degrees * 10, 10) << degrees;
        EXPECT_GE(lines->surePercent, 60) << degrees;
    }
}

TEST(EdgeLines, FaintLinesUnderNoiseAreFoundWithinThreeDegrees) {
    for (const double degrees : {-20.0, -8.0, 3.0, 10.0}) {
        const Image image = figure(degrees, 8, 10);
        const auto lines = linesIn(image.view(), shown, strip, same);
        ASSERT_TRUE(lines) << degrees;
        EXPECT_NEAR(lines->angleTenths, degrees * 10, 30) << degrees;
    }
}

TEST(EdgeLines, WithoutLinesNothingIsSure) {
    const auto noise = linesIn(figure(0, 0, 12).view(), shown, strip, same);
    ASSERT_TRUE(noise);
    EXPECT_LT(noise->surePercent, 15);
    const auto flat = linesIn(figure(0, 0, 0).view(), shown, strip, same);
    ASSERT_TRUE(flat);
    EXPECT_LT(flat->surePercent, 15);
}

/// A stave that lies end for end in the picture, or rolled over, has its lines in its own frame.
TEST(EdgeLines, StandInTheFrameOfTheStrip) {
    const Image image = figure(12, 25, 5);
    const auto turned = linesIn(image.view(), shown, strip, [](Point at) {
        return Point{shown.x1 - at.x, shown.y1 - at.y};
    });
    ASSERT_TRUE(turned);
    EXPECT_NEAR(turned->angleTenths, 120, 10); // half a turn changes no line
    const auto rolled = linesIn(image.view(), shown, strip, [](Point at) {
        return Point{at.x, shown.y1 - at.y};
    });
    ASSERT_TRUE(rolled);
    EXPECT_NEAR(rolled->angleTenths, -120, 10);
}

/// A dark knot and the black where no photograph reaches.
TEST(EdgeLines, AKnotDoesNotTurnThemAndWhatIsNotShownDoesNotCount) {
    Image image = figure(6, 25, 5);
    for (int row = 0; row < image.height(); ++row) {
        for (int column = 0; column < image.width(); ++column) {
            const double x = (column + 0.5) / perMm;
            const double y = 100 - (row + 0.5) / perMm;
            const bool isKnot = std::hypot(x - 300, y - 14) < 9;
            const bool isDark = x > 520;
            for (int k = 0; k < 3 && (isKnot || isDark); ++k) {
                image.at(column, row)[k] = isDark ? 0 : 40;
            }
        }
    }
    const auto lines = linesIn(image.view(), shown, strip, same);
    ASSERT_TRUE(lines);
    EXPECT_NEAR(lines->angleTenths, 60, 15);
    const Rect outside{Length::millimetres(500), strip.y0, Length::millimetres(900), strip.y1};
    EXPECT_FALSE(linesIn(image.view(), shown, outside, same));
}

} // namespace
} // namespace stavewright::photo
