// Plans that claim other sums than they have: each sum has its own sentence with both values.

#include <gtest/gtest.h>

#include "BrokenPlan.h"

namespace stavewright::audit_sample {
namespace {

struct FalseClaim {
    std::string name;
    std::function<void(PlanTotals&)> claim;
    std::string sentence;
};
std::ostream& operator<<(std::ostream& out, const FalseClaim& claim) { return out << claim.name; }

const std::vector<FalseClaim> falseClaims = {
    {"BoardsUsed", [](PlanTotals& t) { t.boardsUsed = 2; },
     "The plan claims 2 used boards; the audit counts 3."},
    {"Placed", [](PlanTotals& t) { t.placed = 11; },
     "The plan claims 11 placed blanks; the audit counts 10."},
    {"Demanded", [](PlanTotals& t) { t.demanded = 1; },
     "The plan claims 1 wanted blank; the audit counts 10."},
    {"Fills", [](PlanTotals& t) { t.fills = 0; }, "The plan claims 0 fills; the audit counts 1."},
    {"LumberUsed", [](PlanTotals& t) { t.lumberUsed = BoardFeet::whole(9); },
     "The plan claims 9.00 bd ft of lumber used; the audit counts 9.58 bd ft."},
    {"LumberUsedByAHair", [](PlanTotals& t) { t.lumberUsed += BoardFeet::millionths(1); },
     "The plan claims 9576390 millionths of a bd ft of lumber used; the audit counts 9576389 "
     "millionths of a bd ft."},
    {"RoughBlanks", [](PlanTotals& t) { t.blanks = BoardFeet::whole(6); },
     "The plan claims 6.00 bd ft of rough blanks; the audit counts 5.43 bd ft."},
    {"FinishedParts", [](PlanTotals& t) { t.parts = BoardFeet::whole(4); },
     "The plan claims 4.00 bd ft of finished parts; the audit counts 3.84 bd ft."},
    {"OffcutsKept", [](PlanTotals& t) { t.offcutsKept = BoardFeet(); },
     "The plan claims 0.00 bd ft of offcuts kept; the audit counts 0.44 bd ft."},
    {"Cost", [](PlanTotals& t) { t.cost = Money::whole(100); },
     "The plan claims a cost of $100.00; the audit counts $108.85."},
};

class FalseTotals : public testing::TestWithParam<FalseClaim> {};

TEST_P(FalseTotals, IsFoundWithBothValues) {
    Document job = goodJob();
    GetParam().claim(job.plan->totals);
    const std::vector<Expected> failures = failuresOf(audit(job));
    ASSERT_EQ(failures.size(), 1U);
    EXPECT_EQ(failures[0].kind, FindingKind::WrongTotals);
    EXPECT_EQ(failures[0].sentence, GetParam().sentence);
}

INSTANTIATE_TEST_SUITE_P(Audit, FalseTotals, testing::ValuesIn(falseClaims),
                         [](const auto& tested) { return tested.param.name; });

// 9 bd ft = 9 x 0.002 359 737 216 m^3
TEST(Totals, AJobInMillimetresIsToldInCubicMetres) {
    Document job = goodJob();
    job.info.units = UnitSystem::Millimetres;
    job.plan->totals.lumberUsed = BoardFeet::whole(9);
    const std::vector<Expected> failures = failuresOf(audit(job));
    ASSERT_EQ(failures.size(), 1U);
    EXPECT_EQ(failures[0].sentence,
              "The plan claims 0.0212 m³ of lumber used; the audit counts 0.0226 m³.");
}

TEST(Totals, ABilledBoardCountsAsBilled) {
    Document job = goodJob();
    boardOf(job, id::board9).billed = BoardFeet::whole(3);
    const PlanTotals counted = audit(job).totals;
    const PlanTotals& before = job.plan->totals;
    EXPECT_EQ(counted.lumberUsed - before.lumberUsed, BoardFeet::millionths(3'000'000 - 2'604'167));
    EXPECT_EQ(counted.cost - before.cost, Money::tenThousandths(300'000 - 260'417));
}

TEST(Totals, ASharedCutCountsOnce) {
    // Opening the joint between two sections by a sixteenth makes two cuts of one.
    Document job = goodJob();
    const Money before = audit(job).totals.cost;
    section(job, 0, 0).along.to -= in(1, 16);
    blank(job, 0, 0, 0).rect.x1 -= in(1, 16);
    blank(job, 0, 0, 1).rect.x1 -= in(1, 16);
    EXPECT_EQ(audit(job).totals.cost - before, job.shop.prices.crosscut);
}

TEST(Totals, AnEndFlushWithTheBoardIsNoCut) {
    Document job = goodJob();
    const Money before = audit(job).totals.cost;
    section(job, 2, 0).along.to = in(50);
    // The board's end is free, but the plies are no longer flush with a crosscut of the section.
    EXPECT_EQ(audit(job).totals.cost - before, job.shop.prices.crosscut);
}

} // namespace
} // namespace stavewright::audit_sample
