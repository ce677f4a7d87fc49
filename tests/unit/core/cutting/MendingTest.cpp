// Plans that lack something, cut anew until they do not.

#include "core/cutting/Mending.h"

#include <gtest/gtest.h>

#include "Racks.h"

namespace stavewright::cutting::testing {
namespace {

/// A search whose menus are made.
struct Searched {
    explicit Searched(const Problem& problem)
        : state(problem, options, progress, improved) {
        const Fineness fineness = Fineness::quick();
        isReady = state.prepare(&fineness);
    }
    Options options;
    Progress progress;
    OnImproved improved;
    SearchState state;
    bool isReady = false;
};

TEST(Mending, ABoardIsCutAnewForWhatThePlanLacks) {
    // One board that eight bars fill, and a plan that takes two of them.
    const Problem problem =
        barsOfAClearBoard(80 * inch + 3 * inch / 8, 8 * inch + inch / 8, 20 * inch, 4 * inch, 8);
    Searched searched(problem);
    ASSERT_TRUE(searched.isReady);
    SearchState& state = searched.state;
    std::int64_t work = 0;
    Pattern pattern =
        bestWithin(state.stock, 0, state.values, state.accounts->demand(), state.interrupt, work)
            .pattern;
    ASSERT_FALSE(pattern.sections.empty());
    PlacedSection& first = pattern.sections.front();
    pattern.sections.resize(1);
    first.strips.resize(1);
    first.strips.front().blanks.resize(1);
    ASSERT_EQ(state.accounts->settle({pattern}).solution.unplaced, std::vector<int>{7});
    mend(state, {{pattern}}, 1);
    ASSERT_TRUE(state.hasBest);
    EXPECT_EQ(state.best.unplaced, std::vector<int>{0});
    EXPECT_GT(state.columns.size(), 0U) << "what is met on the way is learnt";
    EXPECT_GT(state.work, 0);
}

TEST(Mending, OfNoPlanComesNone) {
    const Problem problem = barsOfAClearBoard(80 * inch, 8 * inch, 20 * inch, 4 * inch, 8);
    Searched searched(problem);
    ASSERT_TRUE(searched.isReady);
    SearchState& state = searched.state;
    mend(state, {}, 1);
    EXPECT_FALSE(state.hasBest);
    mend(state, {{}}, 1);
    EXPECT_EQ(state.columns.size(), 0U);
}

} // namespace
} // namespace stavewright::cutting::testing
