#include "core/glueup/Movement.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace stavewright::glueup {
namespace {

// Cup worked out without any of the formulas in the code: many points of a board's face are moved
// as wood round a pith moves, and the gap under a straightedge over its edges is read off. `middle`
// and `height` say where the face's middle stands from the pith.
double cupByPoints(double width, double middle, double height, double radial, double tangential) {
    struct Spot {
        double x;
        double y;
    };
    const auto moved = [&](double x) {
        const double radius = std::hypot(x, height) * (1 + radial);
        const double angle = std::atan2(x, height) * (1 + tangential) / (1 + radial);
        return Spot{radius * std::sin(angle), radius * std::cos(angle)};
    };
    const Spot low = moved(middle - width / 2);
    const Spot high = moved(middle + width / 2);
    const Spot mid = moved(middle);
    const double share = (mid.x - low.x) / (high.x - low.x);
    return low.y + share * (high.y - low.y) - mid.y; // edges above the middle: hollow towards bark
}

TEST(Movement, CupAgreesWithPointsMovedRoundThePith) {
    const Movement drying{1580, 3690, -40}; // red oak, four points drier
    for (const int radius : {60, 100, 150, 250}) {
        for (const int angle : {0, 150, 300, 450, 600, 750}) {
            for (const int width : {50, 75, 100}) {
                const double turned = angle / 1800.0 * std::numbers::pi;
                const double expected =
                    cupByPoints(width, radius * std::sin(turned), radius * std::cos(turned),
                                0.00158 * -4, 0.00369 * -4);
                const RingData rings{HeartSide::FaceB, angle, Length::millimetres(radius)};
                const double cup =
                    forecastCup(Length::millimetres(width), rings, drying).toMillimetres();
                // First order in strain: a hundredth or two.
                EXPECT_NEAR(cup, expected, 0.03 * std::abs(expected) + 0.002)
                    << radius << " mm, " << angle / 10 << " degrees, " << width << " mm";
            }
        }
    }
}

TEST(Movement, FlatSawnFollowsTheNarrowStaveFormula) {
    // (C_T - C_R) change width^2 / (4 radius): 0.00211 x 4 x 50^2 / (4 x 250) = 0.0211 mm
    const Movement drying{1580, 3690, -40};
    const RingData rings{HeartSide::FaceB, 0, Length::millimetres(250)};
    EXPECT_NEAR(forecastCup(Length::millimetres(50), rings, drying).toMillimetres(), 0.0211,
                0.0002);
}

// Wood Handbook (FPL-GTR-190), Fig. 4-3, and every shop book: as a flat-sawn board dries its edges
// lift away from the heart.
TEST(Movement, AFlatSawnStaveCupsAwayFromTheHeartAsItDries) {
    const Length width = Length::inches(5);
    const Movement drying{1580, 3690, -20};
    const Movement wetting{1580, 3690, 20};
    const Length radius = Length::inches(4);
    const RingData heartBelow{HeartSide::FaceB, 0, radius};
    const RingData heartAbove{HeartSide::FaceA, 0, radius};
    EXPECT_GT(forecastCup(width, heartBelow, drying), Length()); // bark up: the upper face hollows
    EXPECT_LT(forecastCup(width, heartAbove, drying), Length()); // heart up: it crowns
    EXPECT_LT(forecastCup(width, heartBelow, wetting), Length());
    EXPECT_EQ(forecastCup(width, heartAbove, wetting), forecastCup(width, heartBelow, drying));
}

TEST(Movement, QuarterSawnWoodStaysFlatAndTheUnknownIsNotForecast) {
    const Movement drying{1580, 3690, -40};
    const Length width = Length::inches(5);
    const Length plain = forecastCup(width, {HeartSide::FaceB, 150, Length::inches(6)}, drying);
    const Length quartered = forecastCup(width, {HeartSide::FaceB, 800, Length::inches(6)}, drying);
    EXPECT_LT(abs(quartered) * 4, plain);
    EXPECT_EQ(forecastCup(width, {HeartSide::Unknown, 0, Length::inches(6)}, drying), Length());
    EXPECT_EQ(forecastCup(width, {HeartSide::FaceA, 0, Length()}, drying), Length());
    EXPECT_EQ(forecastCup(width, {HeartSide::FaceA, 0, Length::inches(6)}, {1580, 3690, 0}),
              Length());
}

TEST(Movement, PanelOfEqualArcsIsOneArc) {
    // Five equal arcs that go over into one another: the depth grows with the square of the width.
    const CupPart hollow{Length::millimetres(100), Length::micrometres(100)};
    const CupForecast all = panelCup({hollow, hollow, hollow, hollow, hollow});
    EXPECT_NEAR(all.depth.toMillimetres(), 0.1 * 25, 1e-6);
    EXPECT_GT(all.overall, Length());
}

TEST(Movement, AlternatingStavesStayNearTheLine) {
    const CupPart hollow{Length::millimetres(100), Length::micrometres(100)};
    const CupPart round{Length::millimetres(100), Length::micrometres(-100)};
    const CupForecast all = panelCup({round, hollow, round, hollow, round});
    EXPECT_LT(all.depth, Length::micrometres(350));
    const CupForecast two = panelCup({hollow, round});
    EXPECT_EQ(two.depth, panelCup({round, hollow}).depth);
    EXPECT_EQ(panelCup({}).depth, Length());
    EXPECT_EQ(panelCup({round}).overall, Length::micrometres(-100));
}

} // namespace
} // namespace stavewright::glueup
