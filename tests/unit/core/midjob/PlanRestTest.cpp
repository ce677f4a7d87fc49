// The rest planned again: what is held stays to the bit, what is only kept stays where it can.

#include "core/midjob/PlanRest.h"

#include "core/hand/HandEdits.h"
#include "tests/unit/core/midjob/ShopSample.h"

namespace stavewright::midjob {
namespace {

using namespace shop_sample;

const PlanOptions quick{.seed = 1, .seconds = 0, .work = 300, .threads = 1};

TEST(PlanRest, KeepingPlacesMovesNothingThatHasOne) {
    for (Document job : {planned(samples::hallShelf()), planned(samples::kitchenTable())}) {
        const BlankId taken = blanksOf(*job.plan).at(2);
        const Result<Edit> edit = hand::backToTray(job, taken);
        ASSERT_TRUE(edit.ok());
        ASSERT_TRUE(apply(job, edit.value()).ok());
        const std::size_t missing = job.plan->unplaced.size();
        const Result<RestOutcome> rest = planRest(job, RestMode::KeepPlaces, quick);
        ASSERT_TRUE(rest.ok());
        const Plan& plan = rest.value().outcome.plan;
        EXPECT_TRUE(audit(job, plan).passed());
        EXPECT_LT(plan.unplaced.size(), missing);
        if (rest.value().boardsFreed == 0) {
            const Moved moved = movedBetween(*job.plan, plan);
            SCOPED_TRACE(sentenceOf(job, moved));
            EXPECT_TRUE(moved.lost.empty());
            EXPECT_EQ(static_cast<std::size_t>(moved.stays), blanksOf(*job.plan).size());
            EXPECT_NE(sentenceOf(job, moved).find("blanks stay"), std::string::npos);
        }
        for (const BoardLayout& layout : plan.boards) {
            for (const Section& section : layout.sections) {
                EXPECT_FALSE(section.locked); // held for the search only
            }
        }
    }
}

TEST(PlanRest, KeepingPlacesLetsGoWhatMayNotStayWhereItIs) {
    Document job = planned(samples::kitchenTable());
    const hand::TreePlace first = *hand::placeOf(*job.plan, blanksOf(*job.plan).front());
    job.boardRules.push_back({BoardRule::Kind::KeptOff,
                              job.plan->boards[first.board].board,
                              hand::blankAt(*job.plan, first).purpose.part,
                              {}});
    ASSERT_FALSE(audit(job).passed());
    const Result<RestOutcome> rest = planRest(job, RestMode::KeepPlaces, quick);
    ASSERT_TRUE(rest.ok()) << describe(rest.error());
    const Plan& plan = rest.value().outcome.plan;
    const AuditReport report = audit(job, plan);
    EXPECT_TRUE(report.passed()) << report.findings.front().sentence;
    EXPECT_GT(movedBetween(*job.plan, plan).stays, 0);
}

TEST(PlanRest, WhereAllHasAPlaceAtOnceTheSearchForBetterEndsByItself) {
    Document job = planned(samples::hallShelf());
    const Result<Edit> edit = hand::backToTray(job, blanksOf(*job.plan).at(2));
    ASSERT_TRUE(edit.ok());
    ASSERT_TRUE(apply(job, edit.value()).ok());
    // Without this end it would go on for all the work that is allowed.
    const std::int64_t allowed = 40'000'000;
    const PlanOptions patient{.seed = 1, .seconds = 0, .work = allowed, .threads = 1};
    const Result<RestOutcome> rest = planRest(job, RestMode::KeepPlaces, patient);
    ASSERT_TRUE(rest.ok());
    ASSERT_TRUE(rest.value().outcome.plan.unplaced.empty());
    EXPECT_EQ(rest.value().boardsFreed, 0);
    EXPECT_LT(rest.value().work, allowed / 4) << rest.value().work;
}

TEST(PlanRest, WoodLeftInACutSectionIsUsed) {
    Document job = planned(samples::kitchenTable());
    // Everything is crosscut, nothing ripped yet; one blank of a section with others is laid back.
    BlankId taken;
    for (BoardLayout& layout : job.plan->boards) {
        for (Section& section : layout.sections) {
            section.state = CutState::Cut;
            std::size_t blanks = 0;
            for (const Strip& strip : section.strips) {
                blanks += strip.blanks.size();
            }
            if (!taken.isSet() && blanks > 1) {
                taken = section.strips.front().blanks.front().id;
            }
        }
    }
    ASSERT_TRUE(taken.isSet());
    const std::size_t placed = blanksOf(*job.plan).size();
    const Result<Edit> edit = hand::backToTray(job, taken);
    ASSERT_TRUE(edit.ok()) << describe(edit.error());
    ASSERT_TRUE(apply(job, edit.value()).ok());
    const int boards = job.plan->totals.boardsUsed;
    for (const RestMode mode : {RestMode::KeepPlaces, RestMode::FromScratch}) {
        const Result<RestOutcome> rest = planRest(job, mode, quick);
        ASSERT_TRUE(rest.ok());
        const Plan& plan = rest.value().outcome.plan;
        EXPECT_TRUE(audit(job, plan).passed());
        EXPECT_TRUE(plan.unplaced.empty());
        EXPECT_EQ(blanksOf(plan).size(), placed);
        EXPECT_EQ(plan.totals.boardsUsed, boards); // no fresh board for what fits the cut one
    }
}

TEST(PlanRest, ALockIsTheSameToTheBitWhicheverWay) {
    for (Document job : {planned(samples::hallShelf()), planned(samples::kitchenTable())}) {
        std::mt19937_64 random(5);
        const std::vector<BlankId> blanks = blanksOf(*job.plan);
        std::vector<BlankId> locked;
        for (int i = 0; i < 3; ++i) {
            const BlankId id = blanks[random() % blanks.size()];
            ASSERT_TRUE(apply(job, hand::setLocked(job, id, true).value()).ok());
            locked.push_back(id);
        }
        const SectionId section = job.plan->boards.back().sections.back().id;
        ASSERT_TRUE(apply(job, hand::setLocked(job, section, true).value()).ok());
        const Section held = job.plan->boards.back().sections.back();
        for (const RestMode mode : {RestMode::KeepPlaces, RestMode::FromScratch}) {
            const Result<RestOutcome> rest = planRest(job, mode, quick);
            ASSERT_TRUE(rest.ok());
            const Plan& plan = rest.value().outcome.plan;
            EXPECT_TRUE(audit(job, plan).passed());
            for (const BlankId id : locked) {
                const auto before = hand::placeOf(*job.plan, id);
                const auto after = hand::placeOf(plan, id);
                ASSERT_TRUE(after);
                EXPECT_EQ(hand::blankAt(plan, *after), hand::blankAt(*job.plan, *before));
                EXPECT_EQ(hand::sectionAt(plan, *after).frame,
                          hand::sectionAt(*job.plan, *before).frame);
            }
            const BoardLayout* layout = hand::layoutOf(plan, job.plan->boards.back().board);
            ASSERT_NE(layout, nullptr);
            EXPECT_TRUE(std::find(layout->sections.begin(), layout->sections.end(), held) !=
                        layout->sections.end());
        }
    }
}

TEST(PlanRest, OnlyMorePlacedOrLessCostIsBetter) {
    const Document job = planned(samples::kitchenTable());
    EXPECT_FALSE(isBetter(job, *job.plan, *job.plan));
    Plan other = *job.plan;
    other.totals.cost -= Money::cents(1);
    EXPECT_TRUE(isBetter(job, *job.plan, other));
    EXPECT_FALSE(isBetter(job, other, *job.plan));
    // Dearer, but with a place for one more.
    Document lacking = job;
    const Result<Edit> edit = hand::backToTray(job, blanksOf(*job.plan).front());
    ASSERT_TRUE(edit.ok() && apply(lacking, edit.value()).ok());
    other.totals.cost = lacking.plan->totals.cost + Money::cents(100);
    EXPECT_TRUE(isBetter(job, *lacking.plan, other));
}

TEST(PlanRest, TheSamePlanHasNotMoved) {
    const Document job = planned(samples::hallShelf());
    const Moved moved = movedBetween(*job.plan, *job.plan);
    EXPECT_TRUE(moved.moved.empty() && moved.gained.empty() && moved.lost.empty());
    EXPECT_EQ(static_cast<std::size_t>(moved.stays), blanksOf(*job.plan).size());
    EXPECT_EQ(moved.costsMore, Money());
}

} // namespace
} // namespace stavewright::midjob
