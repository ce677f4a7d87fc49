// What demands cost. The small jobs are worked out by hand; common practice, no source.

#include "core/choices/DemandCosts.h"

#include <set>

#include "tests/tools/samples/Samples.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::choices {
namespace {

using namespace small_job;

DemandWish quick(int threads = 2) {
    return {.each = {.seed = 5, .seconds = 0, .work = 5'000, .threads = threads}, .most = 12};
}

DemandCosts costsOf(const Document& job, const DemandWish& wish = quick()) {
    Result<DemandCosts> costs = demandCosts(job, wish);
    EXPECT_TRUE(costs.ok()) << (costs.ok() ? "" : describe(costs.error()));
    return costs.ok() ? std::move(costs.value()) : DemandCosts{};
}

void cutTo(Board& board, Length length, Length width) {
    board.outline = {{in(0), in(0)}, {length, in(0)}, {length, width}, {in(0), width}};
    board.lookedAt = {{BoardFace::A, {in(0), length}}, {BoardFace::B, {in(0), length}}};
}

/// One bar, hidden on both faces; a short board just large enough for it with a hole of 2 3/4 in in
/// its middle, where up to 2 1/2 in may be filled; and a whole clear board.
Document barBehindAHole() {
    Document job = oneBar();
    Zone hidden;
    hidden.id = job.takeId<ZoneId>();
    hidden.name = "underside";
    hidden.role = ZoneRole::HiddenFace;
    hidden.area.faces = ZoneFaces::Both;
    hidden.rules = presetRules::hiddenFace;
    job.parts[0].zones = {hidden};
    job.boards = {board(job, "1", {4}, in(1)), board(job, "2", {4}, in(1))};
    cutTo(job.boards[0], in(30), in(4));
    job.boards[0].defects = {defect(job, DefectKind::KnotHole, {in(15), in(2)}, in(11, 4))};
    return job;
}

TEST(DemandCosts, AHoleThatMayBeFilledOneSizeLargerSavesTheWholeBoard) {
    const Document job = barBehindAHole();
    const DemandCosts costs = costsOf(job);
    EXPECT_EQ(costs.tried, costs.toTry);
    ASSERT_FALSE(costs.costs.empty());
    const DemandCost& first = costs.costs.front();
    EXPECT_EQ(first.relaxation.words, "allowing filled knots up to 3\" on the underside of X");
    EXPECT_FALSE(first.isWithinNoise);
    // 96 x 8 in less 30 x 4 in of 4/4: 5.33 - 0.83 board feet.
    EXPECT_EQ(first.savesLumber.inMillionths() / 10'000, 450);
    EXPECT_GT(first.saves, Money::whole(15));
    EXPECT_EQ(first.sentence.rfind("Allowing filled knots up to 3\" on the underside of X would "
                                   "save 4.50 bd ft and $",
                                   0),
              0U)
        << first.sentence;
}

TEST(DemandCosts, TheEditThatIsOfferedGivesWhatItPromises) {
    Document job = barBehindAHole();
    const DemandCosts costs = costsOf(job);
    ASSERT_FALSE(costs.costs.empty());
    ASSERT_TRUE(apply(job, costs.costs.front().relaxation.edit).ok());
    const Plan plan = planOf(job);
    EXPECT_EQ(figuresOf(job, plan).counted, costs.costs.front().eased.counted);
}

TEST(DemandCosts, WhatFindsAPlaceStandsBeforeWhatSavesMoney) {
    Document job = barBehindAHole();
    job.boards.pop_back(); // no other board
    const DemandCosts costs = costsOf(job);
    EXPECT_EQ(costs.base.missing, 1);
    ASSERT_FALSE(costs.costs.empty());
    EXPECT_EQ(costs.costs.front().placesMore, 1);
    EXPECT_NE(costs.costs.front().sentence.find("would give 1 more blank or panel a place"),
              std::string::npos)
        << costs.costs.front().sentence;
}

TEST(DemandCosts, WhereNothingIsInTheWayNoDemandCostsAnything) {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1))};
    const DemandCosts costs = costsOf(job);
    EXPECT_EQ(costs.noise, Money());
    for (const DemandCost& cost : costs.costs) {
        // An offcut a little longer is all there is to gain.
        EXPECT_LT(cost.saves, Money::whole(1)) << cost.sentence;
    }
}

TEST(DemandCosts, AreRankedByWhatTheySave) {
    const DemandCosts costs = costsOf(samples::hallShelf());
    for (std::size_t i = 1; i < costs.costs.size(); ++i) {
        const DemandCost& a = costs.costs[i - 1];
        const DemandCost& b = costs.costs[i];
        EXPECT_TRUE(a.placesMore > b.placesMore ||
                    (a.placesMore == b.placesMore && a.saves >= b.saves));
        EXPECT_EQ(b.isWithinNoise, b.saves <= costs.noise) << b.sentence;
        EXPECT_EQ(b.isWithinNoise, !b.doubt.empty());
    }
}

TEST(DemandCosts, AreTheSameWhateverTheNumberOfThreads) {
    const Document job = samples::hallShelf();
    const DemandCosts one = costsOf(job, quick(1));
    const DemandCosts two = costsOf(job, quick(2));
    ASSERT_EQ(one.costs.size(), two.costs.size());
    for (std::size_t i = 0; i < one.costs.size(); ++i) {
        EXPECT_EQ(one.costs[i].sentence, two.costs[i].sentence);
    }
}

TEST(DemandCosts, StoppedSayNothingThatWasNotPlanned) {
    std::stop_source stop;
    stop.request_stop();
    Progress progress;
    progress.stop = stop.get_token();
    const Result<DemandCosts> costs = demandCosts(samples::hallShelf(), quick(), progress);
    ASSERT_TRUE(costs.ok());
    EXPECT_TRUE(costs.value().costs.empty());
    EXPECT_TRUE(costs.value().stoppedEarly());
}

TEST(Relaxations, EachIsASoundEditThatCanBeTakenBack) {
    for (const Document& sample :
         {samples::hallShelf(), samples::kitchenTable(), samples::linenChest()}) {
        const std::vector<Relaxation> eased = relaxationsOf(sample, 100);
        EXPECT_FALSE(eased.empty());
        std::set<std::string> said;
        for (const Relaxation& relaxation : eased) {
            EXPECT_TRUE(said.insert(relaxation.words).second) << relaxation.words << " twice";
            Document job = sample;
            const Result<Edit> back = apply(job, relaxation.edit);
            ASSERT_TRUE(back.ok()) << relaxation.words;
            EXPECT_NE(job, sample) << relaxation.words;
            const Status valid = validate(job);
            EXPECT_TRUE(valid.ok())
                << relaxation.words << (valid.ok() ? "" : describe(valid.error()));
            ASSERT_TRUE(apply(job, back.value()).ok());
            EXPECT_EQ(job, sample) << relaxation.words;
        }
        EXPECT_EQ(relaxationsOf(sample, 3).size(), 3U);
    }
}

TEST(Relaxations, LeaveAloneWhatJointsAndGluedEdgesAsk) {
    Document job = barBehindAHole();
    job.parts[0].zones[0].role = ZoneRole::JoineryEnd;
    for (const Relaxation& relaxation : relaxationsOf(job, 100)) {
        EXPECT_EQ(relaxation.words.find("knots"), std::string::npos) << relaxation.words;
    }
}

} // namespace
} // namespace stavewright::choices
