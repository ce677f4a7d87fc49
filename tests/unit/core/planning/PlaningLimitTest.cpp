// Boards that are much thicker than a part needs are left for thicker parts.

#include <gtest/gtest.h>

#include "core/audit/Audit.h"
#include "core/planning/Planner.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace small_job;

const std::string& reasonOf(const Plan& plan) { return plan.unplaced.at(0).nearestMiss; }

// A bar 3/4 in thick needs 1/32 in more for sanding and 1/8 in for cleaning: 29/32 in.
TEST(PlaningLimit, AThickBoardGivesNoThinBar) {
    Document job = oneBar();
    job.boards = {board(job, "4", {8}, in(2))};
    const Plan plan = planOf(job);
    EXPECT_TRUE(plan.boards.empty());
    ASSERT_EQ(plan.unplaced.size(), 1U);
    EXPECT_EQ(
        reasonOf(plan),
        "Every board is too thick for it: the thinnest is board 4 (8/4), and 1 3/32\" would be "
        "planed away beyond what its milling needs; the shop allows 1/2\". A thinner board, or "
        "a larger allowance, would free it.");
    EXPECT_TRUE(audit(job, plan).passed());
}

TEST(PlaningLimit, TheThinBoardIsTakenAlthoughTheThickOneCostsLess) {
    Document job = oneBar();
    job.boards = {board(job, "4", {8}, in(2)), board(job, "5", {4}, in(1))};
    job.boards[0].pricePerBoardFoot = Money::cents(1);
    const Plan plan = planOf(job);
    ASSERT_EQ(plan.boards.size(), 1U);
    EXPECT_EQ(plan.boards[0].board, job.boards[1].id);
    EXPECT_TRUE(audit(job, plan).passed());
}

TEST(PlaningLimit, CountsFromTheThinnestSpotToTheNanometre) {
    Document job = oneBar();
    job.boards = {board(job, "4", {6}, in(29, 32) + job.shop.mostPlanedAway)};
    EXPECT_TRUE(planOf(job).unplaced.empty());
    job.boards[0].thinnest += Length::nanometres(1);
    EXPECT_EQ(planOf(job).unplaced.size(), 1U);
}

TEST(PlaningLimit, PlannerAndAuditAgreeOnPliesToTheNanometre) {
    Document job = oneBar();
    job.parts[0].makeUp.lamination = LaminationMakeUp{3};
    for (std::int64_t odd = 0; odd < 4; ++odd) {
        // Thicknesses that three plies do not share out evenly.
        job.parts[0].thickness.base = in(9, 4) + Length::nanometres(odd);
        job.boards.clear();
        // Ply: (9/4 + 1/32 + 1/16) / 3 + 1/32, and 1/8 for cleaning.
        const Length needed = Length::nanometres((in(75, 32).inNanometres() + odd + 2) / 3 +
                                                 (in(1, 32) + in(1, 8)).inNanometres());
        for (const char* mark : {"1", "2", "3"}) {
            job.boards.push_back(board(job, mark, {6}, needed + job.shop.mostPlanedAway));
        }
        const Plan plan = planOf(job);
        EXPECT_EQ(reasons(plan), "");
        EXPECT_TRUE(audit(job, plan).passed());
    }
}

TEST(PlaningLimit, SaysThatAThickerBoardWouldHaveRoom) {
    Document job = oneBar();
    job.parts[0].count = 40;
    job.boards = {board(job, "4", {8}, in(2)), board(job, "5", {4}, in(1))};
    const Plan plan = planOf(job);
    ASSERT_FALSE(plan.unplaced.empty());
    EXPECT_NE(
        reasonOf(plan).find("On board 4 (8/4) there is room, but 1 3/32\" would be planed away "
                            "beyond what its milling needs; the shop allows 1/2\"."),
        std::string::npos)
        << reasonOf(plan);
}

} // namespace
} // namespace stavewright
