// The best stack of strips against every stack there is, for few strips drawn at random.

#include "core/cutting/SectionStack.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace stavewright::cutting::testing {
namespace {

constexpr int rows = 9;
constexpr int highest = 16;
constexpr int rowsOfGroup = 4;

struct Drawn {
    std::vector<StackedStrip> known;
    GuessedRows guesses;
    std::vector<StackedStrip> all;
};

Drawn draw(std::uint64_t seed) {
    std::mt19937_64 engine(seed);
    const auto below = [&](int n) {
        return static_cast<int>(engine() % static_cast<std::uint64_t>(n));
    };
    Drawn drawn;
    for (int v = 0; v < rows; ++v) {
        if (below(3) == 0) {
            drawn.known.push_back({v, v + 1 + below(4), below(2), 10 + below(90)});
        }
    }
    drawn.all = drawn.known;
    drawn.guesses.reset(rowsOfGroup);
    for (int group = 0; group * rowsOfGroup < rows; ++group) {
        if (below(2) == 0) {
            const int footprint = 1 + below(3);
            const int carries = below(3);
            std::vector<Cost> gains;
            for (int s = 0; s <= below(2); ++s) {
                gains.push_back(20 + below(120));
            }
            drawn.guesses.add(0, footprint, carries, *std::max_element(gains.begin(), gains.end()));
            for (std::size_t s = 0; s < gains.size(); ++s) {
                drawn.guesses.addGain(gains[s]);
                for (int v = group * rowsOfGroup; v < std::min(rows, (group + 1) * rowsOfGroup);
                     ++v) {
                    drawn.all.push_back(
                        {v, v + footprint + static_cast<int>(s), carries, gains[s]});
                }
            }
        }
        drawn.guesses.endGroup();
    }
    return drawn;
}

/// Strips that stand on `under`, and all that can stand on them.
Cost bestOn(const std::vector<StackedStrip>& strips, const StackedStrip* under, Cost rip) {
    Cost best = 0;
    for (const StackedStrip& strip : strips) {
        const bool fits = under == nullptr || strip.v >= under->end;
        // It needs no rip below where it lies on the strip there.
        const bool touches = under != nullptr && strip.v <= under->end + under->carries;
        if (fits) {
            best =
                std::max(best, strip.gain - (touches ? 1 : 2) * rip + bestOn(strips, &strip, rip));
        }
    }
    return best;
}

TEST(SectionStack, FindsTheBestOfAllStacks) {
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        const Drawn drawn = draw(seed);
        StackRules rules;
        rules.rows = rows;
        rules.highest = highest;
        rules.ripCost = 7;
        const Cost most = bestOn(drawn.all, nullptr, rules.ripCost);
        std::vector<std::size_t> traced;
        for (const bool onlyWorth : {true, false}) {
            SectionStack stack;
            stack.reset(rules, &drawn.guesses, onlyWorth);
            for (const StackedStrip& strip : drawn.known) {
                stack.add(strip);
            }
            if (onlyWorth) {
                EXPECT_EQ(stack.worth(), most) << "seed " << seed;
                continue;
            }
            EXPECT_EQ(stack.bestExact(), bestOn(drawn.known, nullptr, rules.ripCost));
            stack.keepAsGoodAs(most); // drops nothing of the best
            EXPECT_EQ(stack.best(traced), most) << "seed " << seed;
        }
    }
}

TEST(SectionStack, WhatShowsNotToMatterIsLeftOut) {
    StackRules rules;
    rules.rows = rows;
    rules.highest = highest;
    std::vector<Cost> above(rows, 0); // nothing can be stacked anywhere
    rules.above = &above;
    rules.least = 50;
    SectionStack stack;
    stack.reset(rules, nullptr, true);
    stack.addWiderAndWider({0, 2}, 1, {40, 49});
    EXPECT_EQ(stack.worth(), 0);
    stack.reset(rules, nullptr, true);
    stack.addWiderAndWider({0, 2}, 1, {40, 49, 50});
    EXPECT_EQ(stack.worth(), 50);
}

} // namespace
} // namespace stavewright::cutting::testing
