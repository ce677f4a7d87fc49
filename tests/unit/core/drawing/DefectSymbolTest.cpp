// Symbols of defects: inside their outline, told apart without colour, the same every time.
#include "core/drawing/DefectSymbol.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <vector>

#include <gtest/gtest.h>

#include "tests/unit/core/drawing/TestShapes.h"

namespace stavewright::drawing {
namespace {

using test::inch;

/// Rounding of the drawing; half of what polygon tests allow.
constexpr double tolerance = 1000;

std::vector<Polygon> someOutlines() {
    return {test::ellipse(5, 3, 1.2, 0.8),
            test::ellipse(5, 3, 0.2, 0.15),
            test::ellipse(5, 3, 0.2, 1.5),
            test::ellipse(5, 3, 12, 0.05),
            test::angled(),
            test::shape({{0, 0}, {20, 2}, {20, 2.01}}),
            test::shape({{0, 0}, {96, 0}, {96, 0.7}, {50, 1.1}, {0, 0.9}})};
}

std::size_t countOf(const DefectSymbol& symbol, StrokeRole role) {
    return static_cast<std::size_t>(
        std::count_if(symbol.strokes.begin(), symbol.strokes.end(),
                      [&](const Stroke& stroke) { return stroke.role == role; }));
}

TEST(DefectSymbol, StrokesStayInsideTheOutline) {
    for (const Polygon& outline : someOutlines()) {
        for (const DefectKind kind : allDefectKinds) {
            const DefectSymbol symbol = symbolOf(kind, outline, inch(0.1));
            for (const Stroke& stroke : symbol.strokes) {
                ASSERT_GE(stroke.points.size(), 2U);
                for (std::size_t i = 0; i + 1 < stroke.points.size(); ++i) {
                    const Point& a = stroke.points[i];
                    const Point& b = stroke.points[i + 1];
                    const Point middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
                    EXPECT_TRUE(test::liesWithin(a, outline, tolerance)) << nameOf(kind);
                    EXPECT_TRUE(test::liesWithin(middle, outline, tolerance)) << nameOf(kind);
                }
            }
        }
    }
}

TEST(DefectSymbol, TheLetterStandsInsideTheOutline) {
    for (const Polygon& outline : someOutlines()) {
        for (const DefectKind kind : allDefectKinds) {
            const DefectSymbol symbol = symbolOf(kind, outline, inch(0.1));
            EXPECT_EQ(symbol.letter, letterOf(kind));
            EXPECT_TRUE(test::liesWithin(symbol.letterAt, outline, 0)) << nameOf(kind);
        }
    }
}

TEST(DefectSymbol, TheMeasuredOutlineComesFirst) {
    const Polygon outline = test::angled();
    for (const DefectKind kind : allDefectKinds) {
        const DefectSymbol symbol = symbolOf(kind, outline, inch(0.1));
        ASSERT_FALSE(symbol.strokes.empty());
        EXPECT_EQ(symbol.strokes.front().points, outline);
        EXPECT_TRUE(symbol.strokes.front().closed);
    }
}

TEST(DefectSymbol, IsTheSameEveryTime) {
    for (const DefectKind kind : allDefectKinds) {
        const DefectSymbol once = symbolOf(kind, test::angled(), inch(0.1));
        const DefectSymbol again = symbolOf(kind, test::angled(), inch(0.1));
        ASSERT_EQ(once.strokes.size(), again.strokes.size());
        for (std::size_t i = 0; i < once.strokes.size(); ++i) {
            EXPECT_EQ(once.strokes[i].points, again.strokes[i].points);
        }
        EXPECT_EQ(once.letterAt, again.letterAt);
    }
}

TEST(DefectSymbol, AHoleIsEmptyWithAHeavyRing) {
    const DefectSymbol symbol =
        symbolOf(DefectKind::KnotHole, test::ellipse(5, 3, 1, 1), inch(0.1));
    EXPECT_EQ(symbol.strokes.size(), 1U);
    EXPECT_EQ(symbol.strokes[0].role, StrokeRole::HeavyOutline);
}

TEST(DefectSymbol, ACheckIsOneLineAlongTheGrainAndASplitTwo) {
    const Polygon outline = test::ellipse(5, 3, 4, 0.3);
    const auto openLines = [&](DefectKind kind) {
        std::size_t lines = 0;
        for (const Stroke& stroke : symbolOf(kind, outline, inch(0.1)).strokes) {
            if (!stroke.closed) {
                ++lines;
                EXPECT_GT(stroke.points.back().x - stroke.points.front().x, inch(7));
            }
        }
        return lines;
    };
    EXPECT_EQ(openLines(DefectKind::Check), 1U);
    EXPECT_EQ(openLines(DefectKind::Split), 2U);
    EXPECT_EQ(openLines(DefectKind::Shake), 2U);
}

TEST(DefectSymbol, HatchesStandAt45Degrees) {
    for (const DefectKind kind : {DefectKind::Wane, DefectKind::Other}) {
        const DefectSymbol symbol = symbolOf(kind, test::ellipse(5, 3, 1, 1), inch(0.15));
        EXPECT_GT(countOf(symbol, StrokeRole::Hatch), 5U);
        for (const Stroke& stroke : symbol.strokes) {
            if (stroke.role == StrokeRole::Hatch) {
                const Length run = stroke.points.back().x - stroke.points.front().x;
                const Length rise = stroke.points.back().y - stroke.points.front().y;
                EXPECT_LE(abs(run - rise), Length::nanometres(2));
            }
        }
    }
}

TEST(DefectSymbol, ABarkPocketIsFilledBesideItsLetter) {
    const DefectSymbol symbol =
        symbolOf(DefectKind::BarkPocket, test::ellipse(5, 3, 1, 0.5), inch(0.1));
    std::size_t filled = 0;
    for (const Stroke& stroke : symbol.strokes) {
        filled += stroke.filled ? 1 : 0;
        EXPECT_TRUE(!stroke.filled || !isInside(spotOf(symbol.letterAt), curveOf(stroke.points)));
    }
    EXPECT_EQ(filled, 2U);
}

TEST(DefectSymbol, FollowsTheSpacing) {
    const Polygon outline = test::ellipse(5, 3, 3, 2);
    for (const DefectKind kind :
         {DefectKind::Wane, DefectKind::Sapwood, DefectKind::Stain, DefectKind::WormHoles}) {
        EXPECT_GT(symbolOf(kind, outline, inch(0.1)).strokes.size(),
                  symbolOf(kind, outline, inch(0.3)).strokes.size())
            << nameOf(kind);
    }
}

TEST(DefectSymbol, AnUnwiseSpacingCostsNoTime) {
    const Polygon outline = test::ellipse(50, 3, 48, 2);
    for (const DefectKind kind : allDefectKinds) {
        for (const Length spacing : {Length(), Length::nanometres(1), -inch(1), inch(4000)}) {
            EXPECT_LT(symbolOf(kind, outline, spacing).strokes.size(), 6000U) << nameOf(kind);
        }
    }
}

TEST(DefectSymbol, AnEmptyOutlineHasNoStrokes) {
    EXPECT_TRUE(symbolOf(DefectKind::SoundKnot, {}, inch(0.1)).strokes.empty());
    const Polygon flat = test::shape({{0, 0}, {1, 0}, {2, 0}});
    for (const DefectKind kind : allDefectKinds) {
        EXPECT_LE(symbolOf(kind, flat, inch(0.1)).strokes.size(), 1U);
    }
}

// --- told apart in black and white
// ------------------------------------------------------------------

constexpr int cells = 32;
using Picture = std::array<bool, cells * cells>;

void blot(Picture& picture, double x, double y, int half) {
    for (int dx = -half; dx <= half; ++dx) {
        for (int dy = -half; dy <= half; ++dy) {
            const int column = static_cast<int>(std::floor(x)) + dx;
            const int row = static_cast<int>(std::floor(y)) + dy;
            if (column >= 0 && column < cells && row >= 0 && row < cells) {
                picture[static_cast<std::size_t>(row * cells + column)] = true;
            }
        }
    }
}

/// The symbol as a printer with 32 dots across would put it: lines one dot wide, heavy ones three.
Picture pictureOf(DefectKind kind) {
    constexpr double radius = 0.25;
    const DefectSymbol symbol =
        symbolOf(kind, test::ellipse(radius, radius, radius, radius * 0.8), inch(0.09));
    Picture picture{};
    const double scale = (cells - 1) / (2 * radius * 25.4e6);
    for (const Stroke& stroke : symbol.strokes) {
        Curve curve = curveOf(stroke.points);
        if (stroke.filled) {
            for (int row = 0; row < cells; ++row) {
                for (int column = 0; column < cells; ++column) {
                    if (isInside({column / scale, row / scale}, curve)) {
                        blot(picture, column, row, 0);
                    }
                }
            }
        }
        if (stroke.closed) {
            curve.push_back(curve.front());
        }
        int step = 0;
        for (std::size_t i = 0; i + 1 < curve.size(); ++i) {
            constexpr int steps = 16;
            for (int k = 0; k < steps; ++k, ++step) {
                const bool gap = stroke.role == StrokeRole::BrokenOutline && step % 24 >= 14;
                if (!gap) {
                    blot(picture, (curve[i].x + (curve[i + 1].x - curve[i].x) * k / steps) * scale,
                         (curve[i].y + (curve[i + 1].y - curve[i].y) * k / steps) * scale,
                         stroke.role == StrokeRole::HeavyOutline ? 1 : 0);
                }
            }
        }
    }
    return picture;
}

TEST(DefectSymbol, HalfAnInchInBlackAndWhiteTellsTheKinds) {
    for (const DefectKind a : allDefectKinds) {
        const Picture pictureA = pictureOf(a);
        for (const DefectKind b : allDefectKinds) {
            if (a < b) {
                const Picture pictureB = pictureOf(b);
                int differing = 0;
                for (std::size_t i = 0; i < pictureA.size(); ++i) {
                    differing += pictureA[i] != pictureB[i] ? 1 : 0;
                }
                EXPECT_GE(differing, 18) << nameOf(a) << " and " << nameOf(b);
            }
        }
    }
}

TEST(DefectSymbol, LettersTellTheKinds) {
    std::set<char> letters;
    for (const DefectKind kind : allDefectKinds) {
        EXPECT_TRUE(letters.insert(letterOf(kind)).second) << nameOf(kind);
    }
}

} // namespace
} // namespace stavewright::drawing
