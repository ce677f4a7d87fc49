#include "core/glueup/ExactOrder.h"

#include <gtest/gtest.h>

#include "RandomPanels.h"
#include "core/glueup/Arrange.h"

namespace stavewright::glueup {
namespace {

using namespace testing;

constexpr std::int64_t plenty = std::int64_t{1} << 40;

PanelKind kindOf(std::uint64_t seed, int staves) {
    constexpr std::array wishes = {RingWish::Alternate, RingWish::HeartUp, RingWish::BestFaceUp};
    return {.staves = staves,
            .boards = 1 + static_cast<int>(seed % 4),
            .rings = wishes[seed % 3],
            .noCentreSeam = seed % 5 != 0,
            .rulesForbidPoses = seed % 2 == 0,
            .photographed = seed % 7 < 4};
}

void expectBest(const ArrangeProblem& problem, std::uint64_t seed) {
    const Scoring scoring(problem);
    const ExactResult exact = exactOrder(scoring, randomOrder(scoring, seed), plenty);
    ASSERT_TRUE(isAllowed(scoring, exact.order)) << "seed " << seed;
    EXPECT_TRUE(exact.isProved) << "seed " << seed;
    EXPECT_EQ(exact.total, scoring.total(exact.order)) << "seed " << seed;
    EXPECT_EQ(exact.total, bruteForce(scoring)) << "seed " << seed;
}

class Panels : public ::testing::TestWithParam<std::pair<int, std::uint64_t>> {};

TEST_P(Panels, ExactEqualsBruteForce) {
    const auto [staves, count] = GetParam();
    for (std::uint64_t seed = 1; seed <= count; ++seed) {
        expectBest(randomPanel(seed, kindOf(seed, staves)), seed);
    }
}

// 524 panels in all.
INSTANTIATE_TEST_SUITE_P(Sizes, Panels,
                         ::testing::Values(std::pair{1, 20U}, std::pair{2, 120U},
                                           std::pair{3, 160U}, std::pair{4, 160U},
                                           std::pair{5, 54U}, std::pair{6, 10U}));

TEST(ExactOrder, PairsOfPanelsEqualBruteForce) {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        expectBest(randomPair(seed, 2, 2 + static_cast<int>(seed % 2)), seed);
    }
}

TEST(ExactOrder, LocksKeepTheirPlaces) {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        ArrangeProblem problem = randomPanel(seed, {.staves = 5});
        problem.panels[0].locked.resize(5);
        problem.panels[0].locked[2] =
            Placed{static_cast<int>(seed % 5), static_cast<int>(seed % 4)};
        const Scoring scoring(problem);
        const Order begin = Order(arrange(problem, {}).order);
        ASSERT_TRUE(isAllowed(scoring, begin));
        const ExactResult exact = exactOrder(scoring, begin, plenty);
        EXPECT_EQ(exact.order[2], *problem.panels[0].locked[2]);
        EXPECT_EQ(exact.total, bruteForce(scoring)) << "seed " << seed;
    }
}

TEST(ExactOrder, TablesGiveTheLeastOfWhatAddsUp) {
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
        ArrangeProblem problem = randomPanel(seed, kindOf(seed, 4));
        // Without the terms that do not add up the tables alone are exact.
        auto& weights = problem.settings.weights.hundredths;
        weights[static_cast<std::size_t>(GlueTerm::PanelCup)] = 0;
        weights[static_cast<std::size_t>(GlueTerm::KnotsCrowded)] = 0;
        const Scoring scoring(problem);
        const CostToGo up(scoring, 1);
        const CostToGo down(scoring, -1);
        EXPECT_EQ(std::min(up.least(), down.least()), bruteForce(scoring)) << "seed " << seed;
        ASSERT_TRUE(up.best().has_value());
        EXPECT_LE(scoring.total(*up.best()), up.least());
    }
}

TEST(ExactOrder, AStopOrALimitIsNoProof) {
    const ArrangeProblem problem = randomPanel(7, {.staves = 8});
    const Scoring scoring(problem);
    std::stop_source source;
    source.request_stop();
    const Order begin = randomOrder(scoring, 1);
    EXPECT_FALSE(exactOrder(scoring, begin, plenty, source.get_token()).isProved);
    const ExactResult cut = exactOrder(scoring, begin, 1);
    EXPECT_FALSE(cut.isProved);
    EXPECT_LE(cut.total, scoring.total(begin));
}

} // namespace
} // namespace stavewright::glueup
