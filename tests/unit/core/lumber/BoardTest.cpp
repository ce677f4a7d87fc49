#include "core/lumber/Board.h"

#include <cmath>
#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"

namespace stavewright {
namespace {

constexpr Length in(std::int64_t numerator, std::int64_t denominator = 1) {
    return Length::inches(numerator, denominator);
}

Board boardOf(Length length, Length width, Quarter quarter) {
    Board board;
    board.quarter = quarter;
    board.thinnest = quarter.nominal();
    board.outline = polygonOf({Length(), Length(), length, width});
    return board;
}

/// 8/4, 96 x 8 in, thinnest 2 in, bow 1/2, cup 1/8, twist 3/8.
Board warped() {
    Board board = boardOf(in(96), in(8), {8});
    board.warp = {in(1, 2), in(1, 8), in(3, 8), Warp::Where::Even};
    return board;
}

double hundredths(Length thickness) { return std::round(thickness.toInches() * 100) / 100; }

// Computed from the geometry of an even bow, a cup and a twist (no published table); the figures
// were worked out by hand to two decimals before this code was written.
TEST(ReachableThickness, theWorkedCaseOfAWarpedBoard) {
    const Length cleaning = in(1, 8);
    const auto left = [&](Length length, Length width) {
        return hundredths(reachableThickness(warped(), {Length(), length}, width, cleaning));
    };
    EXPECT_DOUBLE_EQ(left(in(96), in(8)), 1.06);
    EXPECT_DOUBLE_EQ(left(in(48), in(8)), 1.53);
    EXPECT_DOUBLE_EQ(left(in(30), in(8)), 1.64);
    EXPECT_DOUBLE_EQ(left(in(30), in(4)), 1.77);
}

TEST(ReachableThickness, isExactAndRoundedDown) {
    // 2 - 1/2 - 1/8 - 3/16 - 1/8 = 1 1/16, without a nanometre lost
    EXPECT_EQ(reachableThickness(warped(), {Length(), in(96)}, in(8), in(1, 8)), in(17, 16));
    Board board = boardOf(in(30), in(8), {4});
    board.warp.bow = Length::nanometres(1);
    EXPECT_EQ(reachableThickness(board, {Length(), in(10)}, in(8), Length()),
              in(1) - Length::nanometres(1)); // a ninth of a nanometre takes a whole one
    board.warp = {Length::nanometres(1), Length::nanometres(1), Length::nanometres(2), {}};
    EXPECT_EQ(reachableThickness(board, {Length(), in(15)}, in(4), Length()),
              in(1) - Length::nanometres(1)); // three quarters, rounded once
}

TEST(ReachableThickness, theBoardsOwnFrameDoesNotMatter) {
    Board board = warped();
    for (Point& corner : board.outline) {
        corner.y -= in(40);
    }
    EXPECT_EQ(reachableThickness(board, {in(20), in(50)}, in(4), in(1, 8)),
              reachableThickness(warped(), {in(60), in(90)}, in(4), in(1, 8)));
}

TEST(ReachableThickness, warpAtOneEndCountsWholeThereAndNotElsewhere) {
    Board board = warped();
    const Length flat = in(2) - in(1, 8);
    const Length bent = flat - in(1, 2) - in(1, 8) - in(3, 16);
    board.warp.where = Warp::Where::MostlyAtDatumEnd;
    EXPECT_EQ(reachableThickness(board, {in(32), in(96)}, in(8), in(1, 8)), flat);
    EXPECT_EQ(reachableThickness(board, {in(31), in(40)}, in(2), in(1, 8)), bent);
    board.warp.where = Warp::Where::MostlyAtFarEnd;
    EXPECT_EQ(reachableThickness(board, {in(0), in(64)}, in(8), in(1, 8)), flat);
    EXPECT_EQ(reachableThickness(board, {in(0), in(65)}, in(8), in(1, 8)), bent);
}

TEST(BoardExtent, widthIsMeasuredSquareAcrossACrookedBoard) {
    Board board;
    board.outline = {{in(0), in(0)},  {in(48), in(1)}, {in(96), in(0)},
                     {in(96), in(6)}, {in(48), in(7)}, {in(0), in(6)}};
    EXPECT_EQ(lengthOf(board), in(96));
    EXPECT_EQ(widthOf(board), in(6)); // its box is 7 wide
}

TEST(BoardFeetOfABoard, countWaneAndTaper) {
    Board board = boardOf(in(96), in(8), {8});
    EXPECT_EQ(exactBoardFeet(board).inMillionths(), 10'666'667); // 2 x 8 x 96 / 144
    board.outline[2] = {in(96), in(4)};                          // tapers to half
    EXPECT_EQ(exactBoardFeet(board), BoardFeet::whole(8));
    board.pricePerBoardFoot = Money::cents(1150);
    EXPECT_EQ(costOf(board), Money::cents(9200));
    board.billed = BoardFeet::whole(9);
    EXPECT_EQ(boardFeetOf(board), BoardFeet::whole(9));
    EXPECT_EQ(costOf(board), Money::cents(10'350));
}

TEST(Planing, runsAlongTheBoardOrTheOtherWay) {
    EXPECT_EQ(alongBoard(PlaningDirection::TowardsFarEnd), 1);
    EXPECT_EQ(alongBoard(PlaningDirection::TowardsDatumEnd), -1);
    EXPECT_EQ(alongBoard(PlaningDirection::Unknown), 0);
}

TEST(NotLookedAt, isWhatNoLookCovers) {
    Board board = boardOf(in(96), in(8), {4});
    const Stretch all{in(0), in(96)};
    EXPECT_EQ(notLookedAt(board, BoardFace::A, all), std::vector<Stretch>{all});
    board.lookedAt = {{BoardFace::A, {in(50), in(60)}},
                      {BoardFace::A, {in(10), in(30)}},
                      {BoardFace::A, {in(20), in(40)}},
                      {BoardFace::B, all}};
    EXPECT_EQ(notLookedAt(board, BoardFace::A, all),
              (std::vector<Stretch>{{in(0), in(10)}, {in(40), in(50)}, {in(60), in(96)}}));
    EXPECT_EQ(notLookedAt(board, BoardFace::A, {in(12), in(45)}),
              (std::vector<Stretch>{{in(40), in(45)}}));
    EXPECT_TRUE(notLookedAt(board, BoardFace::A, {in(50), in(60)}).empty());
    EXPECT_TRUE(notLookedAt(board, BoardFace::B, all).empty());
}

TEST(QuickLooks, leaveSmallSoundKnotsUnmarkedUntilSomebodyLooksAgain) {
    Board board = boardOf(in(96), in(8), {4});
    const Stretch all{in(0), in(96)};
    board.lookedAt = {{BoardFace::A, {in(0), in(60)}, in(1)},
                      {BoardFace::A, {in(40), in(80)}, in(1, 2)},
                      {BoardFace::A, {in(20), in(30)}},
                      {BoardFace::B, all}};
    EXPECT_EQ(notLookedAt(board, BoardFace::A, all), (std::vector<Stretch>{{in(80), in(96)}}));
    EXPECT_EQ(quicklyLookedAt(board, BoardFace::A, all),
              (std::vector<QuickLook>{{{in(0), in(20)}, in(1)},
                                      {{in(30), in(40)}, in(1)},
                                      {{in(40), in(80)}, in(1, 2)}}));
    EXPECT_EQ(quicklyLookedAt(board, BoardFace::A, {in(22), in(35)}),
              (std::vector<QuickLook>{{{in(30), in(35)}, in(1)}}));
    EXPECT_TRUE(quicklyLookedAt(board, BoardFace::B, all).empty());
}

} // namespace
} // namespace stavewright
