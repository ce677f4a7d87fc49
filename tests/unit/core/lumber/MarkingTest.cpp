#include "core/lumber/Marking.h"

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/BoardShape.h"

namespace stavewright {
namespace {

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }
constexpr Length hair = in(1, 64);

Board plainBoard() {
    Board board;
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(8), {}});
    return board;
}

Defect knot(std::int64_t id, BoardFace face, Length x, Length y) {
    Defect defect;
    defect.id = DefectId{id};
    defect.mark = "K" + std::to_string(id);
    defect.kind = DefectKind::SoundKnot;
    const FaceMark mark = ellipseBetween({x, y}, {x + in(1), y + in(1)}).value();
    (face == BoardFace::A ? defect.onA : defect.onB) = mark;
    return defect;
}

TEST(EllipseBetween, TakesAnyTwoOppositeCorners) {
    const FaceMark mark = ellipseBetween({in(31), in(4)}, {in(29), in(3)}).value();
    EXPECT_EQ(mark.form, (Ellipse{{in(30), in(7, 2)}, in(2), in(1), 0}));
    EXPECT_TRUE(validatePolygon(mark.outline).ok());
    EXPECT_FALSE(ellipseBetween({in(31), in(4)}, {in(31), in(3)}).ok());
}

TEST(RingMark, DropsNeedlessCornersAndTurnsCounterClockwise) {
    const Polygon clockwise = {{in(0), in(0)}, {in(0), in(2)}, {in(1), in(2)},
                               {in(2), in(2)}, {in(2), in(0)}, {in(1), in(0)}};
    const FaceMark mark = ringMark(clockwise, hair).value();
    EXPECT_LE(mark.outline.size(), 5U);
    EXPECT_EQ(areaOf(mark.outline), in(2) * in(2));
    EXPECT_TRUE(validatePolygon(mark.outline).ok());
}

TEST(RingMark, OfALineThatCrossesItselfIsItsHull) {
    const FaceMark mark =
        ringMark({{in(0), in(0)}, {in(2), in(2)}, {in(2), in(0)}, {in(0), in(2)}}, hair).value();
    EXPECT_EQ(areaOf(mark.outline), in(2) * in(2));
    EXPECT_FALSE(ringMark({{in(0), in(0)}, {in(2), in(2)}}, hair).ok());
    EXPECT_FALSE(ringMark({}, hair).ok());
}

TEST(StrokeMark, IsAsWideAsItIsSaid) {
    const FaceMark mark = strokeMark({{in(0), in(4)}, {in(6), in(4)}}, in(1, 8), hair).value();
    EXPECT_EQ(boundingBox(mark.outline),
              (Rect{in(0), in(4) - in(1, 16), in(6), in(4) + in(1, 16)}));
    EXPECT_FALSE(strokeMark({{in(0), in(4)}}, in(1, 8), hair).ok());
}

TEST(WaneMark, LiesBetweenTheLineAndTheNearerEdge) {
    const Polygon outline = plainBoard().outline;
    const FaceMark low =
        waneMark(outline, {{in(10), in(1)}, {in(30), in(2)}, {in(50), in(0)}}, hair).value();
    EXPECT_EQ(boundingBox(low.outline), (Rect{in(10), in(0), in(50), in(2)}));
    const FaceMark high = waneMark(outline, {{in(60), in(7)}, {in(40), in(15, 2)}}, hair).value();
    EXPECT_EQ(boundingBox(high.outline), (Rect{in(40), in(7), in(60), in(8)}));
    EXPECT_TRUE(coveredBy(high.outline, outline));
    EXPECT_FALSE(waneMark(outline, {{in(10), in(1)}, {in(10), in(2)}}, hair).ok());
}

TEST(StretchMark, GoesFromEdgeToEdge) {
    Board board = plainBoard();
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(6), in(1)});
    const FaceMark mark = stretchMark(board.outline, {in(36), in(31)}).value();
    EXPECT_EQ(boundingBox(mark.outline).x0, in(31));
    EXPECT_EQ(boundingBox(mark.outline).x1, in(36));
    EXPECT_TRUE(coveredWithinTolerance(mark.outline, board.outline));
    EXPECT_FALSE(stretchMark(board.outline, {in(100), in(120)}).ok());
}

TEST(Pairing, FindsTheOtherEndOfAKnotAndMakesThemOne) {
    Board board = plainBoard();
    board.defects = {knot(1, BoardFace::A, in(30), in(3)), knot(2, BoardFace::B, in(32), in(4)),
                     knot(3, BoardFace::B, in(60), in(3)), knot(4, BoardFace::A, in(31), in(3))};
    EXPECT_EQ(partnerOf(board, DefectId{1}, in(6)), DefectId{2});
    EXPECT_EQ(partnerOf(board, DefectId{3}, in(6)), std::nullopt);
    const Board one = paired(board, DefectId{1}, DefectId{2});
    ASSERT_EQ(one.defects.size(), 3U);
    EXPECT_TRUE(one.defects[0].through);
    EXPECT_EQ(one.defects[0].onB, board.defects[1].onB);
    EXPECT_EQ(partnerOf(one, DefectId{1}, in(6)), std::nullopt);
    // Half way down the knot stands half way between its marks.
    const auto middle = outlineAtDepth(one.defects[0], in(2), in(1));
    ASSERT_TRUE(middle.has_value());
    EXPECT_EQ(boundingBox(*middle).x0 + boundingBox(*middle).length() / 2, in(63, 2));
    EXPECT_EQ(paired(board, DefectId{1}, DefectId{4}), board); // both on face A

    const Board two = parted(one, DefectId{1}, DefectId{9}, "K9");
    ASSERT_EQ(two.defects.size(), 4U);
    EXPECT_EQ(two.defects[0], board.defects[0]);
    EXPECT_EQ(two.defects[1].onB, board.defects[1].onB);
    EXPECT_EQ(two.defects[1].mark, "K9");
}

TEST(EndChecks, ReachFromTheEndsOnly) {
    Board board = plainBoard();
    const auto add = [&](DefectKind kind, Length from, Length to, BoardFace face) {
        Defect defect;
        defect.kind = kind;
        (face == BoardFace::A ? defect.onA : defect.onB) =
            strokeMark({{from, in(4)}, {to, in(4)}}, in(1, 8), hair).value();
        board.defects.push_back(defect);
    };
    EXPECT_EQ(endChecksOf(board, in(1)), EndChecks());
    add(DefectKind::Check, in(0), in(4), BoardFace::A);
    add(DefectKind::Split, in(1, 2), in(6), BoardFace::B);
    add(DefectKind::Check, in(20), in(30), BoardFace::A); // a check in the middle trims nothing
    add(DefectKind::SoundKnot, in(0), in(9), BoardFace::A);
    add(DefectKind::Shake, in(91), in(96), BoardFace::A);
    EXPECT_EQ(endChecksOf(board, in(1)), (EndChecks{in(6), in(5)}));
}

TEST(Looks, MergeAndTakeThePlaceOfQuickerOnes) {
    Board board = plainBoard();
    board = withLook(board, {BoardFace::A, {in(0), in(20)}});
    board = withLook(board, {BoardFace::A, {in(20), in(40)}});
    EXPECT_EQ(board.lookedAt, (std::vector<LookedAt>{{BoardFace::A, {in(0), in(40)}}}));
    board = withRestLookedAt(board, BoardFace::A, in(1));
    EXPECT_EQ(quicklyLookedAt(board, BoardFace::A, {in(0), in(96)}),
              (std::vector<QuickLook>{{{in(40), in(96)}, in(1)}}));
    board = withLook(board, {BoardFace::A, {in(50), in(60)}});
    EXPECT_EQ(board.lookedAt, (std::vector<LookedAt>{{BoardFace::A, {in(0), in(40)}},
                                                     {BoardFace::A, {in(40), in(50)}, in(1)},
                                                     {BoardFace::A, {in(60), in(96)}, in(1)},
                                                     {BoardFace::A, {in(50), in(60)}}}));
    EXPECT_TRUE(notLookedAt(board, BoardFace::A, {in(0), in(96)}).empty());
    EXPECT_EQ(notLookedAt(board, BoardFace::B, {in(0), in(96)}).size(), 1U);
}

} // namespace
} // namespace stavewright
