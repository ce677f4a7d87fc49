// Waste worth keeping, worked out by hand on a board 96 x 8 in.

#include <gtest/gtest.h>

#include "core/audit/Audit.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace small_job;

/// The bar in the low corner of a section from 1 to 25 in.
Document barInTheCorner() {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1))};
    Blank bar;
    bar.id = job.takeId<BlankId>();
    bar.purpose = {job.parts[0].id, 1, 0, 0};
    bar.rect = {in(0), in(0), in(24), in(11, 4)};
    Strip strip;
    strip.id = job.takeId<StripId>();
    strip.across = {in(0), in(11, 4)};
    strip.blanks = {bar};
    Section section;
    section.id = job.takeId<SectionId>();
    section.along = {in(1), in(25)};
    section.frame.origin = {in(1), in(0)};
    section.strips = {strip};
    Plan plan;
    plan.boards = {{job.boards[0].id, {section}, false}};
    job.plan = plan;
    return job;
}

Plan marked(Document& job) {
    Plan plan = *job.plan;
    markOffcuts(job, plan, job.nextId);
    const Result<PlanTotals> totals = totalsOf(job, plan);
    EXPECT_TRUE(totals.ok());
    plan.totals = totals.value();
    EXPECT_TRUE(audit(job, plan).passed());
    return plan;
}

TEST(Offcuts, BesideTheStripAndBehindTheSection) {
    Document job = barInTheCorner();
    const Plan plan = marked(job);
    const std::vector<Section>& sections = plan.boards[0].sections;
    ASSERT_EQ(sections.size(), 2U);
    // Beside the bar, one rip kerf away.
    ASSERT_EQ(sections[0].offcuts.size(), 1U);
    EXPECT_EQ(sections[0].offcuts[0].rect, (Rect{in(0), in(23, 8), in(24), in(8)}));
    // Behind the section, one crosscut kerf away, to the raw end.
    EXPECT_EQ(sections[1].along, (Stretch{in(201, 8), in(96)}));
    ASSERT_EQ(sections[1].offcuts.size(), 1U);
    EXPECT_EQ(sections[1].offcuts[0].rect, (Rect{in(0), in(0), in(559, 8), in(8)}));
}

TEST(Offcuts, ASplitAlongTheGrainCountsNoLessOnceTheWoodIsCut) {
    // Beside the bar lies a split, or a piece that is gone; nothing narrower than 3/4 in is ripped.
    for (const Length width : {in(1, 8), in(11, 16), in(3, 4), in(1), in(2)}) {
        Document job = barInTheCorner();
        job.shop.machines.narrowestRip = in(3, 4);
        job.shop.offcuts.leastWidth = in(4); // says nothing of it
        Defect split;
        split.id = job.takeId<DefectId>();
        split.mark = "D1";
        split.kind = DefectKind::Split;
        split.through = true;
        split.onA = FaceMark{polygonOf({in(10), in(5), in(20), in(5) + width}), std::nullopt};
        job.boards[0].defects = {split};
        EXPECT_EQ(marked(job).boards[0].sections[0].offcuts.size(), 1U);
        Plan cut = *job.plan;
        cut.boards[0].sections[0].state = CutState::Cut;
        markOffcuts(job, cut, job.nextId);
        EXPECT_EQ(cut.boards[0].sections[0].offcuts.size(), width < in(3, 4) ? 1U : 0U);
    }
}

TEST(Offcuts, NothingShorterNarrowerOrThinnerThanTheShopKeeps) {
    Document job = barInTheCorner();
    job.shop.offcuts.leastLength = in(559, 8);
    EXPECT_EQ(marked(job).boards[0].sections.size(), 2U);
    job.shop.offcuts.leastLength += Length::nanometres(1);
    EXPECT_EQ(marked(job).boards[0].sections.size(), 1U);

    job = barInTheCorner();
    job.shop.offcuts.leastWidth = in(41, 8);
    EXPECT_EQ(marked(job).boards[0].sections[0].offcuts.size(), 1U);
    job.shop.offcuts.leastWidth += Length::nanometres(1);
    EXPECT_TRUE(marked(job).boards[0].sections[0].offcuts.empty());

    job = barInTheCorner();
    job.shop.offcuts.leastThickness = in(1) + Length::nanometres(1);
    EXPECT_EQ(marked(job).boards[0].sections.size(), 1U);
}

TEST(Offcuts, InAStripBehindItsLastBlank) {
    Document job = barInTheCorner();
    // The section runs to 60 in: 59 - 24 - 1/8 of the strip are left.
    job.plan->boards[0].sections[0].along.to = in(60);
    const Plan plan = marked(job);
    const Strip& strip = plan.boards[0].sections[0].strips[0];
    ASSERT_EQ(strip.offcuts.size(), 1U);
    EXPECT_EQ(strip.offcuts[0].rect, (Rect{in(193, 8), in(0), in(59), in(11, 4)}));
}

TEST(Offcuts, WaneIsNoOffcut) {
    Document job = barInTheCorner();
    // The far edge falls to 4 in behind the section: the strip that is clear there is narrower.
    job.boards[0].outline = {
        {in(0), in(0)}, {in(96), in(0)}, {in(96), in(4)}, {in(25), in(8)}, {in(0), in(8)}};
    const Plan plan = marked(job);
    ASSERT_EQ(plan.boards[0].sections.size(), 2U);
    const Rect& kept = plan.boards[0].sections[1].offcuts.at(0).rect;
    EXPECT_LT(kept.width(), in(33, 8));
    EXPECT_GT(kept.width(), in(4));
}

TEST(Offcuts, MarkedAnewTheyDoNotPileUp) {
    Document job = barInTheCorner();
    const Plan once = marked(job);
    Plan twice = once;
    markOffcuts(job, twice, job.nextId);
    ASSERT_EQ(twice.boards[0].sections.size(), once.boards[0].sections.size());
    EXPECT_EQ(twice.boards[0].sections[0].offcuts.size(), 1U);
}

TEST(Offcuts, ALockedSectionKeepsWhatIsMarkedInIt) {
    Document job = barInTheCorner();
    Section& section = job.plan->boards[0].sections[0];
    section.locked = true;
    // Half of what would be marked, as the maker wanted it.
    section.offcuts = {{job.takeId<OffcutId>(), {in(0), in(4), in(24), in(8)}, {}}};
    const std::vector<Offcut> wanted = section.offcuts;
    EXPECT_EQ(marked(job).boards[0].sections[0].offcuts, wanted);
}

} // namespace
} // namespace stavewright
