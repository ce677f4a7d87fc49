// The predicates against an oracle of another kind: boards whose two edges are functions of x, and
// rectangles that are flush with an edge, or one micrometre beyond it, in 128-bit integers.

#include <algorithm>
#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"
#include "tests/unit/core/geometry/Random.h"

namespace stavewright {
namespace {

constexpr int cases = 20'000;

struct Micro {
    std::int64_t x;
    std::int64_t y;
};

Micro microOf(const Point& p) { return {p.x.inNanometres() / 1000, p.y.inNanometres() / 1000}; }

/// One edge of a board: corners by ascending x.
class EdgeOracle {
  public:
    EdgeOracle(const Polygon& board, std::size_t from, std::size_t to) {
        for (std::size_t i = from; i < to; ++i) {
            m_corners.push_back(microOf(board[i]));
        }
        std::sort(m_corners.begin(), m_corners.end(),
                  [](const Micro& a, const Micro& b) { return a.x < b.x; });
    }
    /// Sign of (edge at x) - y, exactly.
    [[nodiscard]] int heightOver(std::int64_t x, std::int64_t y) const {
        for (std::size_t i = 0; i + 1 < m_corners.size(); ++i) {
            const Micro& a = m_corners[i];
            const Micro& b = m_corners[i + 1];
            if (x >= a.x && x <= b.x) {
                const Int128 value = static_cast<Int128>(a.y - y) * (b.x - a.x) +
                                     static_cast<Int128>(b.y - a.y) * (x - a.x);
                return value > 0 ? 1 : (value < 0 ? -1 : 0);
            }
        }
        ADD_FAILURE() << "the board does not reach " << x;
        return 0;
    }
    /// All x at which a linear piece begins or ends between x0 and x1, with x0 and x1.
    [[nodiscard]] std::vector<std::int64_t> places(std::int64_t x0, std::int64_t x1) const {
        std::vector<std::int64_t> found = {x0, x1};
        for (const Micro& corner : m_corners) {
            if (corner.x > x0 && corner.x < x1) {
                found.push_back(corner.x);
            }
        }
        return found;
    }
    /// Highest (or lowest) whole micrometre that stays on one side over the stretch.
    [[nodiscard]] std::int64_t extreme(std::int64_t x0, std::int64_t x1, bool highest) const {
        std::int64_t result = highest ? INT64_MIN : INT64_MAX;
        for (const std::int64_t x : places(x0, x1)) {
            std::int64_t low = -10'000'000;
            std::int64_t high = 10'000'000;
            while (low < high) { // least y with edge <= y
                const std::int64_t middle = low + (high - low) / 2;
                if (heightOver(x, middle) <= 0) {
                    high = middle;
                } else {
                    low = middle + 1;
                }
            }
            result = highest ? std::max(result, low) : std::min(result, low);
        }
        return result;
    }

  private:
    std::vector<Micro> m_corners;
};

struct Case {
    Polygon board;
    EdgeOracle nearEdge;
    EdgeOracle farEdge;
    std::int64_t x0;
    std::int64_t x1;
};

Case makeCase(test::Shapes& shapes) {
    const int points = static_cast<int>(shapes.between(1, 8));
    const Polygon board = shapes.board(points);
    const std::size_t half = board.size() / 2;
    const std::int64_t from = microOf(board[0]).x;
    const std::int64_t to = microOf(board[half - 1]).x;
    const std::int64_t a = shapes.between(from, to - 1);
    return {board, EdgeOracle(board, 0, half), EdgeOracle(board, half, board.size()), a,
            shapes.between(a + 1, to)};
}

Polygon rectangle(std::int64_t x0, std::int64_t y0, std::int64_t x1, std::int64_t y1) {
    return polygonOf({Length::micrometres(x0), Length::micrometres(y0), Length::micrometres(x1),
                      Length::micrometres(y1)});
}

TEST(ExactOracle, coverOfFlushRectanglesAndOneMicrometreBeyond) {
    test::Shapes shapes(20'231);
    int inside = 0;
    for (int i = 0; i < cases; ++i) {
        const Case c = makeCase(shapes);
        const std::int64_t y0 = c.nearEdge.extreme(c.x0, c.x1, true) + shapes.between(-1, 1);
        const std::int64_t y1 = c.farEdge.extreme(c.x0, c.x1, false) + shapes.between(-1, 1);
        bool expected = true;
        for (const std::int64_t x : c.nearEdge.places(c.x0, c.x1)) {
            expected = expected && c.nearEdge.heightOver(x, y0) <= 0;
        }
        for (const std::int64_t x : c.farEdge.places(c.x0, c.x1)) {
            expected = expected && c.farEdge.heightOver(x, y1) >= 0;
        }
        inside += expected ? 1 : 0;
        ASSERT_EQ(coveredBy(rectangle(c.x0, y0, c.x1, y1), c.board), expected) << "case " << i;
        if (expected) {
            ASSERT_TRUE(coveredWithinTolerance(rectangle(c.x0, y0, c.x1, y1), c.board)) << i;
        }
    }
    EXPECT_GT(inside, cases / 10);
    EXPECT_LT(inside, cases * 9 / 10);
}

TEST(ExactOracle, meetingOfFlushRectanglesAndOneMicrometreOver) {
    test::Shapes shapes(77);
    int meeting = 0;
    for (int i = 0; i < cases; ++i) {
        const Case c = makeCase(shapes);
        // A rectangle below the board: it meets the board where its top is above the near edge.
        const std::int64_t y1 = c.nearEdge.extreme(c.x0, c.x1, false) + shapes.between(-1, 1);
        bool expected = false;
        for (const std::int64_t x : c.nearEdge.places(c.x0, c.x1)) {
            expected = expected || c.nearEdge.heightOver(x, y1) < 0;
        }
        meeting += expected ? 1 : 0;
        const Polygon below = rectangle(c.x0, y1 - 50'000, c.x1, y1);
        ASSERT_EQ(interiorsMeet(below, c.board), expected) << "case " << i;
        ASSERT_EQ(interiorsMeet(c.board, below), expected) << "case " << i;
    }
    EXPECT_GT(meeting, cases / 10);
    EXPECT_LT(meeting, cases * 9 / 10);
}

TEST(ExactOracle, clearAcrossIsInsideAndCannotGrow) {
    test::Shapes shapes(5);
    for (int i = 0; i < cases / 10; ++i) {
        const Case c = makeCase(shapes);
        const auto run =
            clearAcross(c.board, {Length::micrometres(c.x0), Length::micrometres(c.x1)});
        ASSERT_TRUE(run.has_value()) << i;
        const auto up = [](Length y) { // to the whole micrometre at or above
            const std::int64_t n = y.inNanometres();
            return n >= 0 ? (n + 999) / 1000 : n / 1000;
        };
        EXPECT_EQ(up(run->from), c.nearEdge.extreme(c.x0, c.x1, true)) << i;
        // The far end is rounded down: the edge itself is up to a nanometre farther.
        const std::int64_t farEnd = c.farEdge.extreme(c.x0, c.x1, false);
        EXPECT_LE(up(run->to), farEnd) << i;
        EXPECT_GE(up(run->to + Length::nanometres(1)), farEnd) << i;
    }
}

} // namespace
} // namespace stavewright
