// The planner end to end: plans for the small sample job and for whole sample jobs pass the audit,
// and the same request gives the same plan.

#include "core/planning/Planner.h"

#include <gtest/gtest.h>

#include "core/audit/Audit.h"
#include "core/document/Ids.h"
#include "core/planning/Figures.h"
#include "tests/tools/samples/Samples.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright {
namespace {

PlanOptions quick(int threads = 2) {
    return {.seed = 7, .seconds = 0, .work = 20'000, .threads = threads};
}

Plan planOf(const Document& document, const PlanOptions& options) {
    Result<PlanOutcome> outcome = planJob(document, options);
    EXPECT_TRUE(outcome.ok()) << (outcome.ok() ? "" : describe(outcome.error()));
    return outcome.ok() ? std::move(outcome.value().plan) : Plan{};
}

void expectAudited(const Document& document, const Plan& plan) {
    const AuditReport report = audit(document, plan);
    for (const Finding& finding : report.findings) {
        EXPECT_NE(finding.severity, Severity::Failure)
            << static_cast<int>(finding.kind) << ": " << finding.sentence;
    }
    EXPECT_EQ(report.totals, plan.totals);
}

TEST(Planner, PlansTheSideTableAndTheAuditAgrees) {
    const Document document = sample::sideTable();
    const Plan plan = planOf(document, quick());
    expectAudited(document, plan);
    EXPECT_GT(plan.totals.placed, 0);
}

TEST(Planner, PlansTheKitchenTableAndTheAuditAgrees) {
    const Document document = samples::kitchenTable();
    const Plan plan = planOf(document, quick());
    expectAudited(document, plan);
    EXPECT_GT(plan.totals.placed, 0);
}

TEST(Planner, PlansAMetricJobAndTheAuditAgrees) {
    const Document document = samples::linenChest();
    const Plan plan = planOf(document, quick());
    expectAudited(document, plan);
}

TEST(Planner, GivesTheSamePlanWhateverTheNumberOfThreads) {
    const Document document = samples::kitchenTable();
    EXPECT_EQ(planOf(document, quick(1)), planOf(document, quick(2)));
}

TEST(Planner, HandsOutOnlyCompletePlansEachBetterThanTheLast) {
    const Document document = samples::kitchenTable();
    std::vector<Plan> seen;
    const Result<PlanOutcome> outcome =
        planJob(document, quick(), {}, [&](const Plan& plan) { seen.push_back(plan); });
    ASSERT_TRUE(outcome.ok());
    ASSERT_FALSE(seen.empty());
    for (std::size_t i = 0; i < seen.size(); ++i) {
        expectAudited(document, seen[i]);
        if (i > 0 && seen[i].unplaced.empty() && seen[i - 1].unplaced.empty()) {
            EXPECT_LT(countedFor(document, seen[i]), countedFor(document, seen[i - 1]));
        }
    }
    EXPECT_EQ(outcome.value().plan.boards, seen.back().boards);
}

TEST(Planner, KeepsIdsAboveTheDocuments) {
    const Document document = samples::kitchenTable();
    const Plan plan = planOf(document, quick());
    visitPlanIds(plan, [&](const auto& id) { EXPECT_GE(id.value, document.nextId); });
    EXPECT_GE(largestId(plan), document.nextId);
}

TEST(Planner, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    Progress progress;
    progress.stop = stop.get_token();
    const Document document = samples::kitchenTable();
    const Result<PlanOutcome> outcome = planJob(document, {.seconds = 0}, progress);
    ASSERT_TRUE(outcome.ok());
    EXPECT_TRUE(outcome.value().stoppedEarly);
    expectAudited(document, outcome.value().plan);
}

TEST(Planner, RefusesADocumentThatIsNotValid) {
    Document document = sample::sideTable();
    document.parts[0].length.base = Length();
    const Result<PlanOutcome> outcome = planJob(document, quick());
    ASSERT_FALSE(outcome.ok());
    EXPECT_EQ(outcome.error().code, ErrorCode::BadInput);
}

TEST(Planner, LeavesBoardsSetAsideAlone) {
    Document document = samples::kitchenTable();
    for (Board& board : document.boards) {
        board.setAside = true;
    }
    const Plan plan = planOf(document, quick());
    EXPECT_TRUE(plan.boards.empty());
    EXPECT_FALSE(plan.unplaced.empty());
    expectAudited(document, plan);
}

} // namespace
} // namespace stavewright
