// The sample jobs, planned, and every panel of them arranged.

#include <gtest/gtest.h>

#include "core/audit/Audit.h"
#include "core/panels/PanelChecks.h"
#include "core/panels/PlyEdits.h"
#include "core/panels/Proposal.h"
#include "core/panels/TermWords.h"
#include "core/planning/Planner.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::panels {
namespace {

void arrangeAll(Document job) {
    Result<PlanOutcome> planned =
        planJob(job, {.seed = 1, .seconds = 0, .work = 1'000'000, .threads = 2});
    ASSERT_TRUE(planned);
    ASSERT_TRUE(apply(job, {ReplacePlan{planned.value().plan}}));
    ASSERT_TRUE(audit(job).passed());
    const Result<std::vector<Panel>> panels = panelsOf(job);
    ASSERT_TRUE(panels);
    ASSERT_FALSE(panels.value().empty());
    glueup::Cost before = 0;
    glueup::Cost after = 0;
    for (const Panel& panel : panels.value()) { // none of them stands in another one's way
        const Proposal proposal = propose(panel, nullptr, {.seed = 1, .moves = 5'000});
        EXPECT_LE(proposal.after.total, proposal.before.total) << panel.label;
        EXPECT_TRUE(proposal.isBetter || proposal.proved == glueup::Proved::Best) << panel.label;
        before += proposal.before.total;
        after += proposal.after.total;
        // Every term that got worse is told.
        std::size_t worse = 0;
        for (std::size_t i = 0; i < proposal.after.terms.size(); ++i) {
            worse += proposal.after.terms[i].thousandths > proposal.before.terms[i].thousandths
                         ? 1U
                         : 0U;
        }
        EXPECT_EQ(whatGotWorse(proposal.before, proposal.after, job.info).size(), worse);
        if (proposal.isBetter) {
            ASSERT_TRUE(apply(job, editFor(job, panels.value(), proposal).value())) << panel.label;
        }
    }
    // One judgement of all: what one panel's staves do is no other panel's business.
    EXPECT_TRUE(audit(job).passed());
    const Result<std::vector<Panel>> arranged = panelsOf(job);
    ASSERT_TRUE(arranged);
    for (const Panel& panel : arranged.value()) {
        for (const PanelFinding& finding : checkPanel(job, panel)) {
            EXPECT_FALSE(finding.isRefusal) << finding.sentence;
        }
    }
    EXPECT_LT(after, before); // better than as the staves come off the boards
}

TEST(SamplePanels, KitchenTable) { arrangeAll(samples::kitchenTable()); }
TEST(SamplePanels, HallShelf) { arrangeAll(samples::hallShelf()); }
TEST(SamplePanels, LinenChest) { arrangeAll(samples::linenChest()); }
TEST(SamplePanels, ReadingRoom) {
#ifdef __SANITIZE_ADDRESS__
    GTEST_SKIP() << "21 panels in the same code as the other samples; they take too long here.";
#endif
    arrangeAll(samples::readingRoom());
}

/// The plies of its legs, in real rules and by the real audit.
TEST(SamplePanels, LegsOfTheKitchenTableArePaired) {
    Document job = samples::kitchenTable();
    Result<PlanOutcome> planned =
        planJob(job, {.seed = 1, .seconds = 0, .work = 1'000'000, .threads = 2});
    ASSERT_TRUE(planned);
    ASSERT_TRUE(apply(job, {ReplacePlan{planned.value().plan}}));
    const std::vector<Block> blocks = blocksOf(job);
    ASSERT_FALSE(blocks.empty());
    const Result<PairingProposal> found = pairedPlies(job, blocks.front().part);
    ASSERT_TRUE(found) << found.error().message;
    const PairingFigures& before = found.value().before;
    const PairingFigures& after = found.value().after;
    EXPECT_LE(after.sameWay, before.sameWay);
    EXPECT_GE(after.barksMeet, before.barksMeet);
    if (found.value().edit) {
        ASSERT_TRUE(apply(job, *found.value().edit));
        EXPECT_EQ(pairingOf(blocksOf(job), blocks.front().part), after);
    }
    EXPECT_TRUE(audit(job).passed());
}

} // namespace
} // namespace stavewright::panels
