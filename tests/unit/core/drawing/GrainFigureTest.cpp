// The drawn figure of a board: inside the outline, round the knots, never crossing, quick.
#include "core/drawing/GrainFigure.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "core/drawing/Scatter.h"
#include "tests/unit/core/drawing/TestShapes.h"

namespace stavewright::drawing {
namespace {

using test::inch;

constexpr double tolerance = 1000; // nm

Board plainBoard(Polygon outline) {
    Board board;
    board.id = BoardId{7};
    board.outline = std::move(outline);
    return board;
}

void addKnot(Board& board, Polygon outline, BoardFace face, bool through,
             DefectKind kind = DefectKind::SoundKnot) {
    Defect defect;
    defect.kind = kind;
    defect.through = through;
    (face == BoardFace::A ? defect.onA : defect.onB) = FaceMark{std::move(outline), std::nullopt};
    board.defects.push_back(std::move(defect));
}

/// Crook, taper, a slanted end, a wane bite and a crowd of knots, two of them in one place.
Board knottyBoard() {
    Board board = plainBoard(test::shape({{0, 0.2},
                                          {12, 0},
                                          {25, 0.3},
                                          {38, 0.9},
                                          {39.5, 7.6},
                                          {30, 7.9},
                                          {28, 7},
                                          {26, 7.1},
                                          {24, 8},
                                          {10, 8.2},
                                          {0, 8}}));
    addKnot(board, test::ellipse(6, 4, 0.9, 0.6), BoardFace::A, true);
    addKnot(board, test::ellipse(15, 2, 0.5, 0.45), BoardFace::A, false, DefectKind::LooseKnot);
    addKnot(board, test::ellipse(15.6, 2.4, 0.5, 0.4), BoardFace::A, false);
    addKnot(board, test::ellipse(22, 6.5, 0.8, 0.8), BoardFace::A, true, DefectKind::KnotHole);
    addKnot(board, test::ellipse(33, 1.3, 0.8, 0.5), BoardFace::A, true);
    addKnot(board, test::shape({{18, 3}, {19.2, 3.6}, {18.8, 5.8}, {18.1, 5.5}}), BoardFace::A,
            true);
    return board;
}

Board randomBoard(std::uint64_t seed) {
    const auto between = [&](std::uint64_t index, double low, double high) {
        return low + (high - low) * scatter(seed, index);
    };
    const double length = between(0, 30, 150);
    const double width = between(1, 4, 14);
    Board board = plainBoard(test::shape({{0, between(2, 0, 0.5)},
                                          {length / 2, between(3, -0.7, 0.7)},
                                          {length, between(4, 0, 1)},
                                          {length - between(5, 0, 2), width - between(6, 0, 1)},
                                          {length / 2, width + between(7, -0.7, 0.7)},
                                          {0, width}}));
    board.id = BoardId{static_cast<std::int64_t>(seed) + 1};
    for (std::uint64_t i = 0; i < 14; ++i) {
        const double size = between(10 * i + 12, 0.15, 1.2);
        addKnot(board,
                test::ellipse(between(10 * i + 10, 2, length - 2),
                              between(10 * i + 11, 1.2, width - 1.2), size,
                              size * between(10 * i + 13, 0.5, 1.2)),
                BoardFace::A, false);
    }
    return board;
}

double turnOf(const Point& a, const Point& b, const Point& c) {
    const Spot p = spotOf(a);
    const Spot q = spotOf(b);
    const Spot r = spotOf(c);
    return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
}

bool segmentsCross(const Point& a, const Point& b, const Point& c, const Point& d) {
    return (turnOf(a, b, c) > 0) != (turnOf(a, b, d) > 0) &&
           (turnOf(c, d, a) > 0) != (turnOf(c, d, b) > 0);
}

/// Lines run from the datum end on, so that segments can be compared in the order of x.
int crossingsIn(const std::vector<std::vector<Point>>& lines) {
    int crossings = 0;
    for (std::size_t m = 0; m < lines.size(); ++m) {
        for (std::size_t n = m + 1; n < lines.size(); ++n) {
            std::size_t i = 0;
            std::size_t k = 0;
            while (i + 1 < lines[m].size() && k + 1 < lines[n].size()) {
                crossings +=
                    segmentsCross(lines[m][i], lines[m][i + 1], lines[n][k], lines[n][k + 1]);
                lines[m][i + 1].x < lines[n][k + 1].x ? ++i : ++k;
            }
        }
    }
    return crossings;
}

void expectInside(const std::vector<std::vector<Point>>& lines, const Polygon& outline) {
    for (const auto& line : lines) {
        ASSERT_GE(line.size(), 2U);
        for (std::size_t i = 0; i + 1 < line.size(); ++i) {
            const Point middle{(line[i].x + line[i + 1].x) / 2, (line[i].y + line[i + 1].y) / 2};
            ASSERT_TRUE(test::liesWithin(line[i], outline, tolerance));
            ASSERT_TRUE(test::liesWithin(middle, outline, tolerance));
        }
    }
}

/// No point of a line lies deeper in a knot of this face than the rounding.
void expectClearOfKnots(const std::vector<std::vector<Point>>& lines, const Board& board) {
    for (const Defect& defect : board.defects) {
        const Curve knot = curveOf(defect.onA ? defect.onA->outline : defect.onB->outline);
        for (const auto& line : lines) {
            for (const Curve& part : insideParts(curveOf(line), knot)) {
                for (const Spot& spot : part) {
                    ASSERT_LE(distanceToEdge(spot, knot), tolerance);
                }
            }
        }
    }
}

TEST(GrainFigure, StaysInsideTheOutline) {
    const Board board = knottyBoard();
    const auto lines = grainLines(board, BoardFace::A, inch(0.2));
    EXPECT_GT(lines.size(), 30U);
    expectInside(lines, board.outline);
}

TEST(GrainFigure, RunsRoundTheKnotsOfItsFace) {
    const Board board = knottyBoard();
    expectClearOfKnots(grainLines(board, BoardFace::A, inch(0.1)), board);
}

TEST(GrainFigure, NoLineCrossesAnother) {
    EXPECT_EQ(crossingsIn(grainLines(knottyBoard(), BoardFace::A, inch(0.1))), 0);
}

TEST(GrainFigure, HoldsOnManyBoards) {
    for (std::uint64_t seed = 0; seed < 24; ++seed) {
        const Board board = randomBoard(seed);
        const auto lines = grainLines(board, BoardFace::A, inch(0.2));
        SCOPED_TRACE(seed);
        expectInside(lines, board.outline);
        expectClearOfKnots(lines, board);
        EXPECT_EQ(crossingsIn(lines), 0);
    }
}

TEST(GrainFigure, BendsRoundAKnotInsteadOfStoppingAtIt) {
    Board board = plainBoard(test::shape({{0, 0}, {40, 0}, {40, 8}, {0, 8}}));
    addKnot(board, test::ellipse(20, 4, 1, 0.7), BoardFace::A, false);
    // Between the edges all lines run from end to end.
    for (const auto& line : grainLines(board, BoardFace::A, inch(0.25))) {
        const bool nearAnEdge = std::any_of(line.begin(), line.end(), [](const Point& point) {
            return point.y < inch(0.9) || point.y > inch(7.1);
        });
        if (!nearAnEdge) {
            EXPECT_EQ(line.front().x, Length());
            EXPECT_EQ(line.back().x, inch(40));
        }
    }
}

TEST(GrainFigure, AKnotIsFeltNearByAndNotFarOff) {
    const Board clear = plainBoard(test::shape({{0, 0}, {80, 0}, {80, 8}, {0, 8}}));
    Board knotty = clear;
    addKnot(knotty, test::ellipse(20, 4, 1, 0.7), BoardFace::A, false);
    const auto heightsAt = [](const Board& board, Length x) {
        std::vector<double> heights;
        for (const auto& line : grainLines(board, BoardFace::A, inch(0.25))) {
            for (std::size_t i = 0; i + 1 < line.size(); ++i) {
                if (line[i].x <= x && x < line[i + 1].x) {
                    const double share =
                        (x - line[i].x).toInches() / (line[i + 1].x - line[i].x).toInches();
                    heights.push_back(line[i].y.toInches() +
                                      share * (line[i + 1].y - line[i].y).toInches());
                }
            }
        }
        return heights;
    };
    const auto farClear = heightsAt(clear, inch(60));
    const auto farKnotty = heightsAt(knotty, inch(60));
    ASSERT_EQ(farClear.size(), farKnotty.size());
    for (std::size_t i = 0; i < farClear.size(); ++i) {
        EXPECT_NEAR(farClear[i], farKnotty[i], 0.01);
    }
    for (const double height : heightsAt(knotty, inch(20))) {
        EXPECT_GT(std::abs(height - 4), 0.69);
    }
}

TEST(GrainFigure, TheOtherFaceKnowsOnlyWhatComesThrough) {
    Board board = plainBoard(test::shape({{0, 0}, {40, 0}, {40, 8}, {0, 8}}));
    const auto clear = grainLines(board, BoardFace::B, inch(0.25));
    addKnot(board, test::ellipse(12, 4, 1, 0.7), BoardFace::A, false);
    EXPECT_EQ(grainLines(board, BoardFace::B, inch(0.25)), clear);
    board.defects[0].through = true;
    EXPECT_NE(grainLines(board, BoardFace::B, inch(0.25)), clear);
    expectClearOfKnots(grainLines(board, BoardFace::B, inch(0.25)), board);
    // Stains and checks do not turn the grain.
    board.defects[0].kind = DefectKind::Stain;
    EXPECT_EQ(grainLines(board, BoardFace::B, inch(0.25)), clear);
}

TEST(GrainFigure, TheSameBoardHasTheSameFigureAndAnotherBoardAnother) {
    Board board = knottyBoard();
    const auto lines = grainLines(board, BoardFace::A, inch(0.2));
    EXPECT_EQ(grainLines(board, BoardFace::A, inch(0.2)), lines);
    EXPECT_NE(grainLines(board, BoardFace::B, inch(0.2)), lines);
    board.id = BoardId{8};
    EXPECT_NE(grainLines(board, BoardFace::A, inch(0.2)), lines);
}

TEST(GrainFigure, FollowsTaperAndCrook) {
    // 60 in long, crooked by 2 in, tapering from 8 in to 5 in.
    Polygon outline;
    constexpr int steps = 30;
    const auto crook = [](double u) { return 2 * 4 * u * (1 - u); };
    for (int i = 0; i <= steps; ++i) {
        const double u = static_cast<double>(i) / steps;
        outline.push_back({inch(60 * u), inch(crook(u))});
    }
    for (int i = steps; i >= 0; --i) {
        const double u = static_cast<double>(i) / steps;
        outline.push_back({inch(60 * u), inch(crook(u) + 8 - 3 * u)});
    }
    const auto lines = grainLines(plainBoard(outline), BoardFace::A, inch(0.5));
    const auto whole = std::count_if(lines.begin(), lines.end(), [](const auto& line) {
        return line.front().x == Length() && line.back().x == inch(60);
    });
    EXPECT_GE(whole, 12) << "lines along the edges run from end to end";
}

TEST(GrainFigure, AnOutlineThatIsNoneHasNoLines) {
    EXPECT_TRUE(grainLines(plainBoard({}), BoardFace::A, inch(0.2)).empty());
    const Board flat = plainBoard(test::shape({{0, 0}, {1, 0}, {2, 0}}));
    EXPECT_TRUE(grainLines(flat, BoardFace::A, inch(0.2)).empty());
    const Board sliver = plainBoard(test::shape({{0, 0}, {40, 0}, {40, 0.01}}));
    expectInside(grainLines(sliver, BoardFace::A, inch(0.2)), sliver.outline);
}

TEST(GrainFigure, ARackNeedsFewPoints) {
    std::vector<Board> rack;
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        rack.push_back(randomBoard(seed));
    }
    std::size_t points = 0;
    for (const Board& board : rack) {
        for (const auto& line : grainLines(board, BoardFace::A, inch(0.25))) {
            points += line.size();
        }
    }
    // Enough to read the grain by, few enough to draw at once: some thousand points a board.
    EXPECT_GT(points, 60U * 200U);
    EXPECT_LT(points, 60U * 10'000U);
    // An unwise spacing costs no more than a fine one.
    EXPECT_LT(grainLines(rack[0], BoardFace::A, Length::nanometres(1)).size(), 2000U);
    EXPECT_LT(grainLines(rack[0], BoardFace::A, Length()).size(), 2000U);
}

} // namespace
} // namespace stavewright::drawing
