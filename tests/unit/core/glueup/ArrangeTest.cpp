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
