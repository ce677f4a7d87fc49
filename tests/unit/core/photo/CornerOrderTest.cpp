#include "core/photo/CornerOrder.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace stavewright::photo {

namespace {

const BoardSize board{Length::inches(40), Length::inches(8), Length::inches(8)};

Pixels placeOf(const std::vector<CornerMark>& marks, Corner corner) {
    for (const CornerMark& mark : marks) {
        if (mark.corner == corner) {
            return mark.at.pixels();
        }
    }
    return {-1, -1};
}

TEST(CornerOrder, AnyOrderGivesTheSameCorners) {
    const Pixels topLeft{90, 330};
    const Pixels topRight{1500, 250};
    const Pixels bottomRight{1545, 640};
    const Pixels bottomLeft{60, 770};
    std::array<Pixels, 4> corners = {topLeft, topRight, bottomRight, bottomLeft};
    std::array<std::size_t, 4> order = {0, 1, 2, 3};
    do {
        const auto marks = cornersInAnyOrder(
            {corners[order[0]], corners[order[1]], corners[order[2]], corners[order[3]]}, board);
        ASSERT_TRUE(marks.ok());
        EXPECT_EQ(placeOf(marks.value(), Corner::DatumFar), topLeft);
        EXPECT_EQ(placeOf(marks.value(), Corner::EndFar), topRight);
        EXPECT_EQ(placeOf(marks.value(), Corner::EndNear), bottomRight);
        EXPECT_EQ(placeOf(marks.value(), Corner::DatumNear), bottomLeft);
    } while (std::next_permutation(order.begin(), order.end()));
}

TEST(CornerOrder, ABoardStandingUprightHasItsDatumAtTheBottom) {
    const auto marks = cornersInAnyOrder({{{10, 10}, {200, 12}, {205, 900}, {8, 905}}}, board);
    ASSERT_TRUE(marks.ok());
    // Turned clockwise to lie, its left side becomes the far edge.
    EXPECT_EQ(placeOf(marks.value(), Corner::DatumFar), (Pixels{8, 905}));
    EXPECT_EQ(placeOf(marks.value(), Corner::EndFar), (Pixels{10, 10}));
    EXPECT_EQ(placeOf(marks.value(), Corner::DatumNear), (Pixels{205, 900}));
}

TEST(CornerOrder, TheSamePlaceTwiceIsTold) {
    const auto marks = cornersInAnyOrder({{{10, 10}, {10, 10}, {205, 900}, {8, 905}}}, board);
    ASSERT_FALSE(marks.ok());
    EXPECT_NE(marks.error().message.find("same place"), std::string::npos);
}

TEST(CornerOrder, FromTheOtherSideOppositeCornersChangePlaces) {
    PhotoControls controls{2000, 1000, {}, {}, {}, {}};
    controls.corners = {{Corner::DatumNear, PhotoPoint::at({10, 900})},
                        {Corner::EndNear, PhotoPoint::at({1900, 910})},
                        {Corner::EndFar, PhotoPoint::at({1910, 20})},
                        {Corner::DatumFar, PhotoPoint::at({20, 10})}};
    controls.edges = {{LongEdge::Near, PhotoPoint::at({700, 905})}};
    const PhotoControls turned = seenFromOtherSide(controls);
    EXPECT_EQ(placeOf(turned.corners, Corner::DatumNear), (Pixels{1910, 20}));
    EXPECT_EQ(placeOf(turned.corners, Corner::EndNear), (Pixels{20, 10}));
    EXPECT_EQ(placeOf(turned.corners, Corner::EndFar), (Pixels{10, 900}));
    EXPECT_EQ(placeOf(turned.corners, Corner::DatumFar), (Pixels{1900, 910}));
    EXPECT_EQ(turned.edges[0].edge, LongEdge::Far);
    EXPECT_EQ(seenFromOtherSide(turned), controls);
}

} // namespace

} // namespace stavewright::photo
