#include "core/glueup/Stave.h"

#include <gtest/gtest.h>

namespace stavewright::glueup {
namespace {

Stave stave() {
    Stave made;
    made.width = Length::inches(4);
    made.length = Length::inches(48);
    made.thickness = Length::inches(3, 4);
    made.planing = PlaningDirection::TowardsFarEnd;
    made.rings = {HeartSide::FaceA, 100, Length::inches(5)};
    made.nearEdge = Figure::Straight;
    made.farEdge = Figure::Arched;
    const Rect knot{Length::inches(10), Length::inches(1), Length::inches(11), Length::inches(2)};
    made.faceA.knots = {{knot, knot}};
    made.faceA.photo.colours = {{7000, 0, 0}, {6000, 0, 0}};
    made.faceB.photo.colours = {{5000, 0, 0}};
    return made;
}

constexpr Pose asItLies{};
constexpr Pose turned{.endForEnd = true, .faceOver = false};
constexpr Pose over{.endForEnd = false, .faceOver = true};
constexpr Pose both{.endForEnd = true, .faceOver = true};

TEST(Stave, EndForEndMovesTheKnotToTheOtherEndAndEdge) {
    const auto knots = shownKnots(stave(), turned);
    ASSERT_EQ(knots.size(), 1U);
    EXPECT_EQ(knots[0].knot,
              (Rect{Length::inches(37), Length::inches(2), Length::inches(38), Length::inches(3)}));
}

TEST(Stave, RolledOverTheKnotIsBelow) {
    EXPECT_TRUE(shownKnots(stave(), over).empty());
    const auto knots = hiddenKnots(stave(), over);
    ASSERT_EQ(knots.size(), 1U);
    EXPECT_EQ(knots[0].knot.x0, Length::inches(10)); // the end stays
    EXPECT_EQ(knots[0].knot.y0, Length::inches(2));  // the edge does not
    EXPECT_EQ(hiddenKnots(stave(), both)[0].knot.y0, Length::inches(1));
}

// Fibres that rise to the right seen from the side rise to the left when the piece is turned about
// a vertical axis or rolled over, and to the right again after both (a turn about the axis across).
TEST(Stave, PlaningDirectionTurnsWithEachTurn) {
    EXPECT_EQ(planingInPanel(stave(), asItLies), 1);
    EXPECT_EQ(planingInPanel(stave(), turned), -1);
    EXPECT_EQ(planingInPanel(stave(), over), -1);
    EXPECT_EQ(planingInPanel(stave(), both), 1);
    Stave unknown = stave();
    unknown.planing = PlaningDirection::Unknown;
    EXPECT_EQ(planingInPanel(unknown, turned), 0);
}

TEST(Stave, HeartSideTurnsOnlyWhenRolledOver) {
    EXPECT_EQ(heartInPanel(stave(), asItLies), 1);
    EXPECT_EQ(heartInPanel(stave(), turned), 1);
    EXPECT_EQ(heartInPanel(stave(), over), -1);
    Stave upright = stave();
    upright.rings.angleTenths = 850;
    EXPECT_EQ(heartInPanel(upright, asItLies), 0);
}

TEST(Stave, EdgesAndColoursChangeSides) {
    EXPECT_EQ(figureAt(stave(), asItLies, Side::Near), Figure::Straight);
    EXPECT_EQ(figureAt(stave(), turned, Side::Near), Figure::Arched);
    EXPECT_EQ(figureAt(stave(), over, Side::Near), Figure::Arched);
    EXPECT_EQ(figureAt(stave(), both, Side::Near), Figure::Straight);
    EXPECT_EQ(colourAt(stave(), asItLies, Side::Far)->lightness, 6000);
    EXPECT_EQ(colourAt(stave(), turned, Side::Far)->lightness, 7000);
    EXPECT_EQ(colourAt(stave(), over, Side::Far)->lightness, 5000);
}

TEST(Stave, ColourStepIsTheDistance) {
    EXPECT_EQ(colourStep({7000, 300, 0}, {7000, 0, 400}), 5000); // 5 units
    EXPECT_EQ(colourStep({1, 2, 3}, {1, 2, 3}), 0);
}

} // namespace
} // namespace stavewright::glueup
