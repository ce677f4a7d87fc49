#include "core/audit/Facing.h"

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {
namespace {

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

/// 8/4, 96 x 8, thinnest 2 in, bow 1/2, cup 1/8, twist 3/8.
Board warpedBoard() {
    Board board;
    board.quarter = {8};
    board.thinnest = in(2);
    board.outline = polygonOf({in(0), in(0), in(96), in(8)});
    board.warp = {in(1, 2), in(1, 8), in(3, 8), Warp::Where::Even};
    return board;
}

double left(Stretch along, Length width) {
    return thicknessLeft(warpedBoard(), along, width, in(1, 8)).toInches();
}

// Worked by hand from the formula: 1.06, 1.53, 1.64, 1.77 in to two decimals.
TEST(Facing, ShorterAndNarrowerPiecesKeepMoreThickness) {
    EXPECT_NEAR(left({in(0), in(96)}, in(8)), 1.0625, 1e-7);
    EXPECT_NEAR(left({in(0), in(48)}, in(8)), 1.53125, 1e-7);
    EXPECT_NEAR(left({in(33), in(63)}, in(8)), 1.64, 0.005);
    EXPECT_NEAR(left({in(33), in(63)}, in(4)), 1.77, 0.005);
}

TEST(Facing, WarpMostlyAtOneEndCountsWholeThereAndNotElsewhere) {
    Board board = warpedBoard();
    const Length whole = in(2) - in(1, 8) - in(1, 2) - in(1, 8) - in(3, 16);
    const Length none = in(2) - in(1, 8);
    board.warp.where = Warp::Where::MostlyAtDatumEnd;
    EXPECT_EQ(thicknessLeft(board, {in(31), in(60)}, in(4), in(1, 8)), whole);
    EXPECT_EQ(thicknessLeft(board, {in(32), in(60)}, in(4), in(1, 8)), none);
    board.warp.where = Warp::Where::MostlyAtFarEnd;
    EXPECT_EQ(thicknessLeft(board, {in(31), in(64)}, in(4), in(1, 8)), none);
    EXPECT_EQ(thicknessLeft(board, {in(31), in(65)}, in(4), in(1, 8)), whole);
}

TEST(Facing, ABoardWithoutOutlineLeavesNothing) {
    Board board = warpedBoard();
    board.outline = polygonOf({in(0), in(0), in(0), in(0)});
    EXPECT_EQ(thicknessLeft(board, {in(0), in(1)}, in(1), in(0)), Length());
}

TEST(Facing, TheWidestPlaceMayLieBetweenTheCrosscuts) {
    Board board = warpedBoard();
    board.outline = {
        {in(0), in(0)}, {in(96), in(0)}, {in(96), in(6)}, {in(48), in(9)}, {in(0), in(6)}};
    EXPECT_EQ(widestBetween(board, {in(40), in(60)}), in(9));
    EXPECT_EQ(widestBetween(board, {in(0), in(16)}), in(7));
    EXPECT_EQ(extentOf(board).widest, in(9));
}

} // namespace
} // namespace stavewright::audit_detail
