#include "core/lumber/WarpReach.h"

#include <gtest/gtest.h>

#include "core/lumber/BoardShape.h"

namespace stavewright {
namespace {

Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

Board warped(Warp::Where where) {
    Board board;
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(8), {}});
    board.thinnest = in(2);
    board.warp = {in(1, 2), in(1, 8), in(1, 4), where};
    return board;
}

TEST(WarpReach, ShorterAndNarrowerPiecesStayThicker) {
    const std::vector<ReachRow> rows =
        warpReach(warped(Warp::Where::Even), {in(24), in(48), in(120)}, in(1, 16));
    ASSERT_EQ(rows.size(), 3U); // 120 is longer than the board; the whole board comes last
    EXPECT_EQ(rows[2].piece, in(96));
    EXPECT_GT(rows[0].fullWidth, rows[1].fullWidth);
    EXPECT_GT(rows[1].fullWidth, rows[2].fullWidth);
    // 2 - 1/16 - 1/2 - 1/8 - 1/8 by the formula of the design.
    EXPECT_EQ(rows[2].fullWidth, in(19, 16));
    for (const ReachRow& row : rows) {
        EXPECT_GT(row.halfWidth, row.fullWidth);
    }
}

TEST(WarpReach, PiecesComeFromTheWarpedEnd) {
    for (const Warp::Where where : {Warp::Where::MostlyAtDatumEnd, Warp::Where::MostlyAtFarEnd}) {
        const std::vector<ReachRow> rows = warpReach(warped(where), {in(24)}, in(1, 16));
        EXPECT_EQ(rows[0].fullWidth, in(19, 16));
    }
}

TEST(ThicknessSteps, SayHowLongAPieceMayBe) {
    Board board = warped(Warp::Where::Even);
    board.warp = {in(1, 2), {}, {}, Warp::Where::Even};
    // Whole: 2 - 1/16 - 1/2 = 1 7/16. A piece l long loses 1/2 (l/96)^2: 1 3/4 leaves 3/16 for it,
    // l = 96 sqrt(3/8) = 58.79; 1 1/2 leaves 7/16, l = 96 sqrt(7/8) = 89.8 (design, section 3).
    const std::vector<ThicknessStep> steps = thicknessSteps(board, in(1, 16), in(1, 4), in(1));
    EXPECT_EQ(steps, (std::vector<ThicknessStep>{{in(3, 2), in(89)}, {in(7, 4), in(58)}}));
    EXPECT_EQ(thicknessSteps(board, in(1, 16), in(1, 16), in(1)).size(), 4U);
    board.warp = {};
    EXPECT_TRUE(thicknessSteps(board, in(1, 16), in(1, 4), in(1)).empty());
    // Warp at one end leaves the other two thirds flat.
    board.warp = {in(1, 2), {}, {}, Warp::Where::MostlyAtFarEnd};
    EXPECT_EQ(thicknessSteps(board, in(1, 16), in(1, 4), in(1)).back(),
              (ThicknessStep{in(7, 4), in(64)}));
}

TEST(StraightWidth, ShortPiecesLoseLittleToCrookAndTaper) {
    Board board;
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(8), in(1)});
    EXPECT_LT(straightWidth(board, in(96)), in(15, 2));
    EXPECT_GE(straightWidth(board, in(96)), in(7) - in(1, 64));
    EXPECT_GT(straightWidth(board, in(24)), in(31, 4));
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(6), {}});
    EXPECT_EQ(straightWidth(board, in(96)), in(6));
    EXPECT_EQ(straightWidth(board, in(48)), in(7)); // from the wide end
    board.trimAtDatum = in(12);
    EXPECT_EQ(straightWidth(board, in(48)), in(27, 4)); // begins behind the trim
}

} // namespace
} // namespace stavewright
