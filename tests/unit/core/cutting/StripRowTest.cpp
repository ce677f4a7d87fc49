// Rows of one strip: what their crosscuts cost by where the blanks lie. CutCost.cpp counts the cuts
// of a pattern; here the same rows are counted by hand.

#include "core/cutting/StripRow.h"

#include <gtest/gtest.h>

#include "Racks.h"

namespace stavewright::cutting::testing {
namespace {

constexpr Cost price = 10'000;
constexpr Cost crosscut = 500;
constexpr std::uint64_t everyKind = ~std::uint64_t{0};

/// Bars of 10 in on a board of 40 in that is one bar wide, with something to avoid in places.
class Bars {
  public:
    explicit Bars(const std::vector<std::pair<Nm, Nm>>& avoid = {})
        : m_problem(barsOfAClearBoard(40 * inch, 4 * inch, 10 * inch, 4 * inch, 4)) {
        m_problem.limits.crosscutCost = crosscut;
        Kind& kind = m_problem.kinds[0];
        Board& board = m_problem.boards[0];
        if (!avoid.empty()) {
            kind.zones.push_back({0, false, {false, 0}, {true, 0}, {false, 0}, {true, 0}});
            board.layers.resize(1);
        }
        for (const auto& [from, to] : avoid) {
            Block block;
            block.region = box(from, 0, to, 4 * inch);
            board.layers[0].onA.push_back(block);
            board.layers[0].onB.push_back(block);
        }
    }

    /// The lattice's step along.
    Bars& by(Nm step) {
        m_step = step;
        return *this;
    }

    /// Worth of the best row, and its blanks' cells.
    Cost best(const RowBegin& begin, std::vector<int>* cells = nullptr, Cost each = price) const {
        const Context context(m_problem);
        const BoardModel model(m_problem, 0);
        const Lattice lattice(context, model, model.freeStretches().at(0), {m_step, inch / 16});
        const BoundPrices prices(m_problem, {{each}, {0}});
        const StripRow row(lattice, {0, 4 * inch, 4 * inch});
        StripRow::Scratch scratch;
        std::vector<RowStep> steps;
        row.best(lattice, prices, everyKind, begin, scratch, steps);
        if (cells != nullptr) {
            for (const RowBlank& blank :
                 row.blanksOf(lattice, prices, everyKind, begin, lattice.lastEnd())) {
                cells->push_back(blank.cell);
            }
        }
        return worthUpTo(steps, lattice.lastEnd());
    }

  private:
    Problem m_problem;
    Nm m_step = inch / 8;
};

TEST(StripRow, BlanksThatTouchFromTheSectionsEndOnShareTheirCrosscuts) {
    std::vector<int> cells;
    EXPECT_EQ(Bars().best({0, 0}, &cells), 3 * price - 2 * crosscut);
    EXPECT_EQ(cells, (std::vector{0, 81, 162})); // cells and crosscuts of 1/8 in
}

TEST(StripRow, AGapIsCutAtBothSides) {
    // A knot behind the first bar: 0 to 10, then 13 to 23 and 23 1/8 to 33 1/8.
    std::vector<int> cells;
    EXPECT_EQ(Bars({{11 * inch, 13 * inch}}).best({0, 0}, &cells), 3 * price - 3 * crosscut);
    EXPECT_EQ(cells, (std::vector{0, 104, 185}));
}

TEST(StripRow, ARowThatDoesNotBeginWithItsSectionIsCutThereToo) {
    const Bars bars({{0, 2 * inch}});
    EXPECT_EQ(bars.best({0, 0}), 3 * price - 3 * crosscut);
    // But the section may begin behind the knot as well.
    EXPECT_EQ(bars.best({0, 16}), 3 * price - 2 * crosscut);
    EXPECT_EQ(bars.best({16, 16}), 3 * price - 2 * crosscut);
}

TEST(StripRow, WhatBlanksTakeAddsUp) {
    // Cells of 0.3 in: a bar and its crosscut take 33 and three quarters. Four bars have no room
    // behind the knot, by 0.675 in; in whole cells they would.
    Bars bars({{0, 3 * inch / 10}});
    EXPECT_EQ(bars.by(3 * inch / 10).best({0, 0}), 3 * price - 3 * crosscut);
}

TEST(StripRow, WhereTheSectionLeansEveryRowIsCutAtItsBegin) {
    EXPECT_EQ(Bars().best({0, 0, false}), 3 * price - 3 * crosscut);
}

TEST(StripRow, ABlankThatIsWorthLessThanItsCutStillCounts) {
    const Cost cheap = crosscut - 100;
    EXPECT_GE(Bars().best({0, 0}, nullptr, cheap), 2 * cheap - crosscut);
}

} // namespace
} // namespace stavewright::cutting::testing
