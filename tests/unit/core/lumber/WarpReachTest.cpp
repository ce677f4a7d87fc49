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

} // namespace
} // namespace stavewright
