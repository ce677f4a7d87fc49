#include "core/cutting/SectionShape.h"

#include <cmath>

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/Obstacles.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::testing {
namespace {

Problem boardOf(Polygon outline) {
    Problem problem;
    Board board;
    board.outline = std::move(outline);
    problem.boards = {board};
    return problem;
}

Point at(Nm x, Nm y) { return {Length::nanometres(x), Length::nanometres(y)}; }

TEST(SectionShape, AStraightBoardIsFlushToTheNanometre) {
    const Problem problem = boardOf(box(0, 0, 96 * inch, 7 * inch));
    const BoardModel model(problem, 0);
    const SectionShape shape(model, 10 * inch, 58 * inch);
    EXPECT_TRUE(shape.isParallel());
    EXPECT_EQ(shape.uLow(), 0);
    EXPECT_EQ(shape.uHigh(), 48 * inch);
    EXPECT_EQ(shape.clearTop(0, 48 * inch), 7 * inch);
    EXPECT_EQ(shape.fullWidth(), 7 * inch);
}

TEST(SectionShape, ATaperedFarEdgeBoundsEachBlankAtItsOwnPlace) {
    const Problem problem =
        boardOf({at(0, 0), at(100 * inch, 0), at(100 * inch, 5 * inch), at(0, 10 * inch)});
    const BoardModel model(problem, 0);
    const SectionShape shape(model, 0, 100 * inch);
    EXPECT_EQ(shape.clearTop(0, 20 * inch), 9 * inch);
    EXPECT_EQ(shape.clearTop(80 * inch, 100 * inch), 5 * inch);
}

TEST(SectionShape, ACrookedBoardIsStraightenedOnTheChordOfEachSection) {
    // Near edge bulges by 1 in in the middle: rise to the middle, fall behind it.
    const Polygon outline = {at(0, 0),
                             at(50 * inch, inch),
                             at(100 * inch, 0),
                             at(100 * inch, 8 * inch),
                             at(50 * inch, 9 * inch),
                             at(0, 8 * inch)};
    const Problem problem = boardOf(outline);
    const BoardModel model(problem, 0);
    // Over the whole board the bulge is lost; over one half only the skew of the crosscuts is.
    const SectionShape whole(model, 0, 100 * inch);
    EXPECT_TRUE(whole.isParallel());
    EXPECT_EQ(whole.frame().origin.y.inNanometres(), inch);
    EXPECT_EQ(whole.clearTop(0, 100 * inch), 7 * inch);
    const SectionShape half(model, 0, 50 * inch);
    EXPECT_FALSE(half.isParallel());
    const Nm top = half.clearTop(half.uLow(), half.uHigh());
    EXPECT_GT(top, 8 * inch - inch / 100);
    EXPECT_LT(top, 8 * inch);

    // The four corners of the largest blank lie between the crosscuts and inside the edges.
    const double run = static_cast<double>(half.frame().run.inNanometres());
    const double rise = static_cast<double>(half.frame().rise.inNanometres());
    const double size = std::hypot(run, rise);
    for (const Nm u : {half.uLow(), half.uHigh()}) {
        for (const Nm v : {Nm{0}, top}) {
            const double du = static_cast<double>(u);
            const double dv = static_cast<double>(v);
            const double x = static_cast<double>(half.frame().origin.x.inNanometres()) +
                             (du * run - dv * rise) / size;
            const double y = static_cast<double>(half.frame().origin.y.inNanometres()) +
                             (du * rise + dv * run) / size;
            EXPECT_GE(x, 0);
            EXPECT_LE(x, static_cast<double>(50 * inch));
            EXPECT_GE(y, x / 50);
            EXPECT_LE(y, static_cast<double>(8 * inch) + x / 50);
        }
    }
}

TEST(SectionFrame, IsTheFrameTheEngineCutsIn) {
    const Problem problem = makeRack({.family = JobFamily::Table, .boards = 6, .seed = 3});
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        const BoardModel model(problem, static_cast<int>(b));
        const SectionShape shape(model, 7 * inch, 61 * inch);
        EXPECT_EQ(shape.frame(), sectionFrame(problem.boards[b], 7 * inch, 61 * inch));
    }
}

TEST(Reachable, FollowsTheWarpFormula) {
    Problem problem = boardOf(box(0, 0, 100 * inch, 10 * inch));
    Board& board = problem.boards[0];
    board.thinnest = 2 * inch;
    board.cleaning = inch / 16;
    board.bow = inch / 2;
    board.cup = inch / 4;
    board.twist = inch / 2;
    // Half as long and half as wide: a quarter of bow and cup, an eighth of twist (which counts
    // half).
    EXPECT_EQ(reachable(board, 0, 50 * inch, 5 * inch),
              2 * inch - inch / 16 - inch / 8 - inch / 16 - inch / 16);
    EXPECT_EQ(reachable(board, 0, 100 * inch, 10 * inch),
              2 * inch - inch / 16 - inch / 2 - inch / 4 - inch / 4);
    // Mostly at the far end: nothing before that third, everything in it.
    board.warpWhere = 2;
    EXPECT_EQ(reachable(board, 0, 60 * inch, 10 * inch), 2 * inch - inch / 16);
    EXPECT_EQ(reachable(board, 20 * inch, 80 * inch, 5 * inch),
              2 * inch - inch / 16 - inch / 2 - inch / 4 - inch / 4);
}

TEST(ConvexPieces, CoverAPolygonWithADent) {
    const Polygon dented = {at(0, 0), at(10, 0), at(10, 10), at(5, 5), at(0, 10)};
    double area = 0;
    for (const auto& piece : convexPieces(dented)) {
        for (std::size_t i = 0; i < piece.size(); ++i) {
            const Spot& a = piece[i];
            const Spot& b = piece[(i + 1) % piece.size()];
            area += (a.x * b.y - b.x * a.y) / 2;
        }
    }
    EXPECT_DOUBLE_EQ(area, 75);
}

TEST(Obstacles, AreTakenFromThePolygonNotFromItsBox) {
    // A triangle that fills the lower right half of a square: a blank over the left tenth meets
    // only its tip.
    Piece piece;
    piece.corners = {{0, 0}, {100, 0}, {100, 100}};
    piece.low = {0, 0};
    piece.high = {100, 100};
    double low = 0;
    double high = 0;
    ASSERT_TRUE(acrossWithin(piece, -50, 10, low, high));
    EXPECT_DOUBLE_EQ(low, 0);
    EXPECT_DOUBLE_EQ(high, 10);
    EXPECT_FALSE(acrossWithin(piece, -50, 0, low, high));
}

} // namespace
} // namespace stavewright::cutting::testing
