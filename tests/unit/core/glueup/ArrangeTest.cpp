#include "core/glueup/Arrange.h"

#include <gtest/gtest.h>

#include "RandomPanels.h"
#include "core/glueup/ExactOrder.h"

namespace stavewright::glueup {
namespace {

using namespace testing;

TEST(Arrange, SameLimitsSameOrderNeverWorseThanGiven) {
    for (const int staves : {1, 5, 9, 16}) {
        const ArrangeProblem problem = randomPanel(11, {.staves = staves});
        const Scoring scoring(problem);
        const Order given = randomOrder(scoring, 3);
        const ArrangeLimits limits{.seed = 5, .moves = 20'000, .work = 20'000};
        const Arrangement first = arrange(problem, given, limits);
        const Arrangement again = arrange(problem, given, limits);
        EXPECT_EQ(first.order, again.order);
        EXPECT_TRUE(isAllowed(scoring, first.order));
        EXPECT_LE(first.score.total, scoring.total(given));
        EXPECT_EQ(first.score, scoring.score(first.order));
    }
}

TEST(Arrange, MoreStavesThanTheTablesTakeIsOnlyBestFound) {
    const ArrangeProblem problem = randomPanel(2, {.staves = mostExactStaves + 1});
    const Arrangement result = arrange(problem, {}, {.seed = 1, .moves = 5'000, .work = 1'000});
    EXPECT_EQ(result.proved, Proved::BestFound);
}

TEST(Arrange, AllStavesLockedStayAsTheyAre) {
    ArrangeProblem problem = randomPanel(4, {.staves = 4});
    problem.panels[0].locked = {Placed{3, 1}, Placed{0, 0}, Placed{2, 2}, Placed{1, 3}};
    const Arrangement result = arrange(problem, {});
    EXPECT_EQ(result.order, (Order{{3, 1}, {0, 0}, {2, 2}, {1, 3}}));
    EXPECT_EQ(result.proved, Proved::Best);
}

/// Two panels that wish the same and whose staves may change sides.
ArrangeProblem exchanging(std::uint64_t seed, int left, int right) {
    ArrangeProblem problem = randomPanel(seed, {.staves = left + right});
    PanelWish one{left, RingWish::Alternate, true, {}};
    PanelWish other{right, RingWish::Alternate, true, {}};
    Length width;
    for (int stave = 0; stave < left + right; ++stave) {
        width += problem.staves[static_cast<std::size_t>(stave)].width;
        if (stave + 1 == left) {
            one.leastWidth = width * 9 / 10;
        }
    }
    other.leastWidth = (width - one.leastWidth * 10 / 9) * 9 / 10;
    problem.panels = {one, other};
    problem.exchange = true;
    return problem;
}

TEST(Arrange, ExchangedStavesMatchTryingEveryDivision) {
    int exchanged = 0;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const int right = 2 + static_cast<int>(seed % 2);
        const ArrangeProblem problem = exchanging(seed, 2, right);
        const Scoring scoring(problem);
        const Arrangement result = arrange(problem, {}, {.seed = 1, .moves = 60'000});
        EXPECT_TRUE(isAllowed(scoring, result.order)) << "seed " << seed;
        EXPECT_EQ(result.score.total, bruteForce(scoring)) << "seed " << seed;
        EXPECT_EQ(result.score, scoring.score(result.order)) << "seed " << seed;
        EXPECT_EQ(result.proved, Proved::Best) << "seed " << seed; // every division was tried
        exchanged += result.order[0].stave > 1 || result.order[1].stave > 1 ? 1 : 0;
    }
    EXPECT_GT(exchanged, 0);
}

TEST(Arrange, AnExchangeKeepsLocksAndWidths) {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        ArrangeProblem problem = exchanging(seed, 4, 4);
        problem.panels[0].locked = {std::nullopt, Placed{1, 2}, std::nullopt, std::nullopt};
        const Scoring scoring(problem);
        const Arrangement result = arrange(problem, {}, {.seed = seed, .moves = 40'000});
        EXPECT_TRUE(isAllowed(scoring, result.order)) << "seed " << seed;
        EXPECT_EQ(result.order[1], (Placed{1, 2})) << "seed " << seed;
        EXPECT_EQ(result.proved, Proved::Best) << "seed " << seed;
        ArrangeProblem apart = problem;
        apart.exchange = false;
        EXPECT_LE(result.score.total,
                  arrange(apart, {}, {.seed = seed, .moves = 40'000}).score.total);
    }
}

TEST(Arrange, ManyDivisionsAreOnlySearched) {
    const ArrangeProblem problem = exchanging(2, 6, 6);
    const Arrangement result = arrange(problem, {}, {.seed = 1, .moves = 20'000, .work = 2'000});
    EXPECT_TRUE(isAllowed(Scoring(problem), result.order));
    EXPECT_EQ(result.proved, Proved::BestFound);
}

TEST(Arrange, ADeadlineHandsOverTheBestSoFar) {
    const ArrangeProblem problem = randomPanel(3, {.staves = 20});
    const Arrangement result =
        arrange(problem, {}, {.seed = 1, .moves = std::int64_t{1} << 50, .seconds = 0.05});
    EXPECT_TRUE(isAllowed(Scoring(problem), result.order));
    EXPECT_FALSE(result.stoppedEarly); // nobody asked for it
}

TEST(Arrange, AStopIsSaid) {
    std::stop_source source;
    source.request_stop();
    const ArrangeProblem problem = randomPanel(4, {.staves = 9});
    const Arrangement result = arrange(problem, {}, {}, source.get_token());
    EXPECT_TRUE(result.stoppedEarly);
    EXPECT_EQ(result.proved, Proved::BestFound);
    EXPECT_TRUE(isAllowed(Scoring(problem), result.order));
}

} // namespace
} // namespace stavewright::glueup
