#include "core/lumber/BoardShape.h"

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"

namespace stavewright {
namespace {

Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

TEST(BoardShape, PlainOutlinesAreKnownAgainByTheirNumbers) {
    for (const Length crook : {Length(), in(3, 8), in(-1, 4), in(1, 64)}) {
        for (const Length length : {in(11), in(96), in(1001, 8), Length::millimetres(4'321)}) {
            const PlainOutline plain{length, in(8), in(27, 4), crook};
            const Polygon outline = outlineOf(plain);
            EXPECT_TRUE(validatePolygon(outline).ok());
            const auto again = plainOutlineOf(outline);
            ASSERT_TRUE(again.has_value());
            EXPECT_EQ(*again, plain);
            EXPECT_EQ(crookOf(outline), crook);
            EXPECT_EQ(boundingBox(outline).x0, Length());
            EXPECT_GE(boundingBox(outline).y0, Length());
        }
    }
}

TEST(BoardShape, AnOutlineOfAnotherShapeIsNotPlain) {
    EXPECT_FALSE(plainOutlineOf(
        {{in(0), in(0)}, {in(96), in(0)}, {in(96), in(7)}, {in(40), in(8)}, {in(0), in(6)}}));
    EXPECT_FALSE(
        plainOutlineOf({{in(0), in(0)}, {in(96), in(1, 4)}, {in(96), in(8)}, {in(0), in(8)}}));
    EXPECT_FALSE(plainOutlineOf({}));
}

TEST(BoardShape, StationsGiveTheOutlineBack) {
    const Polygon drawn = {{in(0), in(0)},  {in(50), in(1, 2)}, {in(96), in(0)},
                           {in(96), in(7)}, {in(50), in(8)},    {in(0), in(6)}};
    const std::vector<Station> stations = stationsOf(drawn);
    ASSERT_EQ(stations.size(), 3U);
    EXPECT_EQ(stations[1], (Station{in(50), in(1, 2), in(8)}));
    EXPECT_EQ(outlineOf(stations), drawn);
}

TEST(BoardShape, BendingADrawnOutlineGivesTheCrookAndKeepsTheWidths) {
    const Polygon drawn = {
        {in(0), in(0)}, {in(96), in(0)}, {in(96), in(7)}, {in(48), in(9)}, {in(0), in(6)}};
    const Polygon changed = bent(drawn, in(1, 2));
    EXPECT_EQ(crookOf(changed), in(1, 2));
    EXPECT_TRUE(validatePolygon(changed).ok());
    EXPECT_EQ(acrossAt(changed, in(48))->length(), in(9));
    EXPECT_EQ(endWidthsOf(changed).atDatum, in(6));
    EXPECT_EQ(endWidthsOf(changed).atFar, in(7));
}

TEST(BoardShape, WhatWasLookedAtFollowsTheLength) {
    Board board;
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(8), {}});
    board.lookedAt = {{BoardFace::A, {in(0), in(96)}},
                      {BoardFace::B, {in(10), in(40)}},
                      {BoardFace::B, {in(85), in(90)}}};
    const Board longer = withOutline(board, outlineOf(PlainOutline{in(120), in(8), in(8), {}}));
    EXPECT_EQ(longer.lookedAt[0].stretch, (Stretch{in(0), in(120)}));
    EXPECT_EQ(longer.lookedAt[1].stretch, (Stretch{in(10), in(40)}));
    const Board shorter = withOutline(board, outlineOf(PlainOutline{in(80), in(8), in(8), {}}));
    ASSERT_EQ(shorter.lookedAt.size(), 2U);
    EXPECT_EQ(shorter.lookedAt[0].stretch, (Stretch{in(0), in(80)}));
}

TEST(BoardShapeTest, ADrawnOutlineIsCutOffOrLedOnByItsLength) {
    const std::vector<Station> drawn = {{Length(), Length(), Length::inches(6)},
                                        {Length::inches(40), Length::inches(1), Length::inches(7)},
                                        {Length::inches(80), Length(), Length::inches(5)}};
    const Polygon outline = outlineOf(drawn);
    const std::vector<Station> shorter = stationsOf(ofLength(outline, Length::inches(60)));
    ASSERT_EQ(shorter.size(), 3U);
    EXPECT_EQ(shorter[1], drawn[1]); // what lies before the new end stays
    EXPECT_EQ(shorter[2], (Station{Length::inches(60), Length::inches(1, 2), Length::inches(6)}));
    const std::vector<Station> longer = stationsOf(ofLength(outline, Length::inches(90)));
    EXPECT_EQ(longer.back(), (Station{Length::inches(90), Length(), Length::inches(5)}));
    EXPECT_EQ(ofLength(outline, Length::inches(80)), outline);
}

} // namespace
} // namespace stavewright
