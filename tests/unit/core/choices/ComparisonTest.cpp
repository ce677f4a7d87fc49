#include "core/choices/Comparison.h"

#include <gtest/gtest.h>

namespace stavewright::choices {
namespace {

TEST(Comparison, SaysMoneyFirstAndThenWhatDiffers) {
    PlanFigures other;
    other.cost = Money::whole(100);
    other.knotsOnShow = 4;
    other.lumber = BoardFeet::whole(20);
    PlanFigures plan = other;
    plan.cost += Money::cents(410);
    plan.knotsOnShow = 1;
    JobInfo info;
    EXPECT_EQ(against(plan, other, info), "costs $4.10 more; 3 knots fewer on show");
    plan.lumber = BoardFeet::whole(18);
    plan.setUps.ripWidths = 1;
    EXPECT_EQ(against(plan, other, info),
              "costs $4.10 more; 2.00 bd ft less lumber; 3 knots fewer on show; 1 set-up more");
    EXPECT_EQ(against(other, plan, info),
              "costs $4.10 less; 2.00 bd ft more lumber; 3 knots more on show; 1 set-up fewer");
}

TEST(Comparison, LessThanTheSmallestCoinIsNothing) {
    EXPECT_EQ(moreOrLess(Money::tenThousandths(40), "$"), "nothing more");
    EXPECT_EQ(moreOrLess(Money::tenThousandths(-40), "$"), "nothing more");
    EXPECT_EQ(moreOrLess(Money::cents(1), "$"), "$0.01 more");
}

TEST(Comparison, CountsLumberInTheJobsUnit) {
    PlanFigures plan;
    plan.lumber = BoardFeet::whole(1);
    JobInfo info;
    info.units = UnitSystem::Millimetres;
    info.currency = "€";
    EXPECT_EQ(against(plan, {}, info), "costs nothing more; 0.0024 m³ more lumber");
}

} // namespace
} // namespace stavewright::choices
