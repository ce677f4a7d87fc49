// Against every place of the low edge and every width tried in turn.

#include "core/cutting/FreeWidths.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace stavewright::cutting::testing {
namespace {

using Bar = FreeWidths::Bar;

struct Across {
    std::vector<Bar> bars, lowBars;
    Nm top = 0;

    [[nodiscard]] bool mayBeginAt(Nm low) const {
        return std::none_of(lowBars.begin(), lowBars.end(),
                            [&](const Bar& bar) { return bar.above < low && low < bar.below; });
    }
    [[nodiscard]] bool mayReach(Nm low, Nm high) const {
        return high <= top && std::all_of(bars.begin(), bars.end(), [&](const Bar& bar) {
                   return low >= bar.below || high <= bar.above;
               });
    }
    [[nodiscard]] int highestFrom(int cell, Nm step) const {
        int steps = 0;
        for (Nm low = cell * step; low < (cell + 1) * step; ++low) {
            while (mayBeginAt(low) && mayReach(low, low + (steps + 1) * step)) {
                ++steps;
            }
        }
        return cell + steps;
    }
};

std::vector<std::int16_t> highest(Across across, Nm step, std::size_t cells) {
    std::vector<std::int16_t> byCell(cells);
    FreeWidths().highest(across.bars, across.lowBars, across.top, step, byCell);
    return byCell;
}

TEST(FreeWidths, AStaveThatIsAHairTooWideBetweenTwoKnotsIsNotThere) {
    // From 11 to 60: 4 steps of 10 and no fifth, which would fit from the cell's edge.
    const Across across{{{-20, 11}, {60, 80}}, {}, 100};
    EXPECT_EQ(highest(across, 10, 10)[1], 1 + 4);
    const Across wider{{{-20, 11}, {61, 80}}, {}, 100};
    EXPECT_EQ(highest(wider, 10, 10)[1], 1 + 5);
}

TEST(FreeWidths, AreThoseOfEveryPlaceTriedInTurn) {
    std::mt19937 random(7);
    const auto between = [&](Nm low, Nm high) {
        return low + static_cast<Nm>(random() % static_cast<unsigned>(high - low + 1));
    };
    constexpr Nm step = 8;
    constexpr int cells = 15;
    for (int round = 0; round < 400; ++round) {
        Across across;
        across.top = between(0, cells * step - 1);
        for (std::vector<Bar>* bars : {&across.bars, &across.lowBars}) {
            for (Nm i = between(0, 4); i > 0; --i) {
                const Nm above = between(-20, cells * step);
                bars->push_back({above, above + between(0, 40)});
            }
        }
        const std::vector<std::int16_t> found = highest(across, step, cells);
        for (int cell = 0; cell < cells; ++cell) {
            ASSERT_EQ(found[static_cast<std::size_t>(cell)],
                      std::min(cells - 1, across.highestFrom(cell, step)))
                << "round " << round << " cell " << cell;
        }
    }
}

} // namespace
} // namespace stavewright::cutting::testing
