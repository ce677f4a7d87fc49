#include "core/lumber/MarkPlace.h"

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"

namespace stavewright {
namespace {

Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

/// Near edge half an inch in at the middle.
const Polygon board = {
    {in(0), in(0)}, {in(48), in(1, 2)}, {in(96), in(0)}, {in(96), in(8)}, {in(0), in(8)}};

TEST(MarkPlace, WhatIsTypedIsReadBackExactly) {
    for (const DefectKind kind : allDefectKinds) {
        const MarkPlace place{in(31), in(9, 4), in(5, 4), in(3, 16)};
        const FaceMark mark = markAt(board, kind, place);
        EXPECT_EQ(placeOf(board, mark), place) << nameOf(kind);
        EXPECT_TRUE(validatePolygon(mark.outline).ok()) << nameOf(kind);
    }
}

TEST(MarkPlace, TheNearEdgeIsTheWoodsOwn) {
    const FaceMark mark = markAt(board, DefectKind::Stain, {in(47), in(1), in(2), in(1)});
    EXPECT_EQ(boundingBox(mark.outline).y0, in(3, 2));
}

TEST(MarkPlace, KnotsAreEllipsesAndChecksAreNot) {
    EXPECT_TRUE(markAt(board, DefectKind::SoundKnot, {in(1), in(1), in(1), in(1)}).form);
    EXPECT_FALSE(markAt(board, DefectKind::Check, {in(1), in(1), in(6), in(1, 8)}).form);
}

TEST(MarkPlace, ADrawnOutlineKeepsItsShapeWhenMoved) {
    const FaceMark drawn{{{in(10), in(2)}, {in(12), in(2)}, {in(11), in(3)}}, std::nullopt};
    MarkPlace place = placeOf(board, drawn);
    place.along = in(4);
    place.fromDatum = in(20);
    const FaceMark moved = movedTo(board, drawn, place);
    ASSERT_EQ(moved.outline.size(), 3U);
    EXPECT_EQ(placeOf(board, moved), place);
    EXPECT_EQ(moved.outline[2].x, in(22));
}

TEST(MarkPlace, AnotherKindTakesItsOwnFormButADrawnOutlineStays) {
    const MarkPlace place{in(31), in(2), in(1), in(1)};
    const FaceMark knot = markAt(board, DefectKind::SoundKnot, place);
    EXPECT_EQ(asKind(board, knot, DefectKind::SoundKnot, DefectKind::Check),
              markAt(board, DefectKind::Check, place));
    const FaceMark drawn{{{in(10), in(2)}, {in(12), in(2)}, {in(11), in(3)}}, std::nullopt};
    EXPECT_EQ(asKind(board, drawn, DefectKind::SoundKnot, DefectKind::Check), drawn);
}

TEST(MarkPlace, SlantIsTheOffsetOfTheSecondMark) {
    const FaceMark onA = markAt(board, DefectKind::SoundKnot, {in(31), in(2), in(1), in(1)});
    const FaceMark onB = shifted(onA, in(1, 2), in(-1, 4));
    EXPECT_EQ(offsetBetween(onA, onB), (Point{in(1, 2), in(-1, 4)}));
}

} // namespace
} // namespace stavewright
