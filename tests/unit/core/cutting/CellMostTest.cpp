// Of what is raised at cells a pass meets the most of each, ascending, what is raised on the way
// too, and leaves nothing behind.

#include "core/cutting/CellMost.h"

#include <gtest/gtest.h>

#include <utility>

namespace stavewright::cutting::testing {
namespace {

using Met = std::vector<std::pair<int, Cost>>;

TEST(CellMost, APassMeetsTheMostOfEveryCellOnce) {
    CellMost most;
    most.grow(200);
    EXPECT_EQ(most.next(), CellMost::none);
    most.raise(130, 5);
    most.raise(3, 2);
    most.raise(3, 9);
    most.raise(3, 4);
    Met met;
    most.drain([&](int cell, Cost worth) {
        met.emplace_back(cell, worth);
        if (cell == 3) {
            most.raise(4, 1);   // of the same word
            most.raise(130, 7); // more than before
            most.raise(199, 6);
        }
    });
    EXPECT_EQ(met, (Met{{3, 9}, {4, 1}, {130, 7}, {199, 6}}));

    met.clear();
    most.raise(150, 8);
    EXPECT_EQ(most.next(), 150); // asked, not met: a lower one may still be raised
    most.raise(90, 2);
    EXPECT_EQ(most.next(), 90);
    EXPECT_EQ(most.take(90), 2);
    EXPECT_EQ(most.next(), 150);
    most.drain([](int, Cost) {});
    most.raise(3, 1); // nothing is left of what was there
    most.drain([&](int cell, Cost worth) { met.emplace_back(cell, worth); });
    EXPECT_EQ(met, (Met{{3, 1}}));
}

} // namespace
} // namespace stavewright::cutting::testing
