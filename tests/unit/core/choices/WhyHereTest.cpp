#include "core/choices/WhyHere.h"

#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::choices {
namespace {

using namespace small_job;

PlanOptions quick() {
    PlanOptions options;
    options.seconds = 0;
    options.work = 1'000'000; // so small a job is solved to the end
    return options;
}

/// One bar and two clear boards, the second dearer.
Document twoBoards() {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1)), board(job, "2", {4}, in(1))};
    job.boards[1].pricePerBoardFoot = Money::whole(12);
    return job;
}

/// With its plan; and the one blank in it.
BlankId planned(Document& job) {
    job.plan = planOf(job, 1, quick().work);
    EXPECT_TRUE(job.plan->unplaced.empty()) << reasons(*job.plan);
    job.nextId = largestId(*job.plan) + 1;
    return blankLabelled(job, "X1").value();
}

WhyHere whyOf(const Document& job, BlankId blank) {
    Result<WhyHere> why = whyHere(job, blank, quick());
    EXPECT_TRUE(why.ok()) << (why.ok() ? "" : describe(why.error()));
    return why.ok() ? std::move(why.value()) : WhyHere{};
}

TEST(WhyHere, TheNextBestBoardCostsSoMuchMore) {
    Document job = twoBoards();
    const BlankId blank = planned(job);
    ASSERT_EQ(job.plan->boards[0].board, job.boards[0].id);
    const WhyHere why = whyOf(job, blank);
    // 5.33 board feet at 3 more each, less the worth of a larger share that is kept as offcuts.
    EXPECT_GT(why.costs, Money::whole(8));
    EXPECT_LE(why.costs, Money::whole(16));
    EXPECT_FALSE(why.isWithinNoise);
    EXPECT_EQ(why.sentence.rfind("X1 lies on board 1: with no X from board 1 the plan costs $", 0),
              0U)
        << why.sentence;
}

TEST(WhyHere, WithoutAnotherBoardItFindsNoPlaceAndTheNearestMissIsTold) {
    Document job = twoBoards();
    job.boards[1].thinnest = in(5, 8); // too thin for it
    const WhyHere why = whyOf(job, planned(job));
    EXPECT_EQ(why.sentence.rfind("X1 lies on board 1 because 1 blank or panel finds no place with "
                                 "no X from board 1. ",
                                 0),
              0U)
        << why.sentence;
    EXPECT_NE(why.sentence.find("would free it"), std::string::npos) << why.sentence;
}

TEST(WhyHere, AnEquallyGoodBoardIsSaidToBeOne) {
    Document job = twoBoards();
    job.boards[1].pricePerBoardFoot = job.boards[0].pricePerBoardFoot;
    for (Board& each : job.boards) { // a board without a flaw is searched in another way
        each.defects = {defect(job, DefectKind::KnotHole, {in(90), in(7)}, in(1))};
    }
    const WhyHere why = whyOf(job, planned(job));
    EXPECT_TRUE(why.isWithinNoise);
    EXPECT_NE(why.sentence.find("Another board would do as well"), std::string::npos)
        << why.sentence;
}

TEST(WhyHere, WhatIsLockedOrCutStaysBecauseOfThat) {
    Document job = twoBoards();
    const BlankId blank = planned(job);
    Blank* found = nullptr;
    for (Section& section : job.plan->boards.at(0).sections) {
        for (Strip& strip : section.strips) {
            found = strip.blanks.empty() ? found : &strip.blanks.front();
        }
    }
    ASSERT_NE(found, nullptr);
    Blank& placed = *found;
    placed.locked = true;
    EXPECT_EQ(whyOf(job, blank).sentence, "X1 stays on board 1 because it is locked.");
    placed.state = CutState::Cut;
    EXPECT_EQ(whyOf(job, blank).sentence, "X1 stays on board 1 because it is cut already.");
}

TEST(WhyHere, RefusesABlankThatIsNotThere) {
    Document job = twoBoards();
    EXPECT_FALSE(whyHere(job, BlankId{999}, quick()).ok());
    planned(job);
    EXPECT_FALSE(whyHere(job, BlankId{999}, quick()).ok());
    EXPECT_FALSE(blankLabelled(job, "Z9").has_value());
    EXPECT_TRUE(blankLabelled(job, "X1").has_value());
}

TEST(WhyHere, StoppedSaysSo) {
    Document job = twoBoards();
    const BlankId blank = planned(job);
    std::stop_source stop;
    stop.request_stop();
    Progress progress;
    progress.stop = stop.get_token();
    const Result<WhyHere> why = whyHere(job, blank, quick(), progress);
    ASSERT_TRUE(why.ok());
    EXPECT_FALSE(why.value().without.has_value());
}

} // namespace
} // namespace stavewright::choices
