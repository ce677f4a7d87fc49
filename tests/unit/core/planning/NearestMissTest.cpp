// Why a piece found no place, and what would free it: one sentence or two, each said only when it
// was looked at.

#include "core/planning/NearestMiss.h"

#include <gtest/gtest.h>

#include "core/audit/Audit.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace small_job;

/// The reason for the only unplaced piece of the plan, or of its first.
std::string reasonIn(const Document& job) {
    const Plan plan = planOf(job);
    return plan.unplaced.empty() ? "everything found a place" : plan.unplaced[0].nearestMiss;
}

TEST(NearestMiss, NoBoardOfTheSpecies) {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1))};
    job.boards[0].species = "black_walnut";
    EXPECT_EQ(reasonIn(job),
              "There is no board of the species White oak to cut it from; one of that species "
              "would free it.");
}

TEST(NearestMiss, WiderThanTheJointer) {
    Document job = oneBar();
    job.parts[0].width.base = in(8);
    job.boards = {board(job, "1", {4}, in(1))};
    EXPECT_EQ(reasonIn(job), "The blank is 8 1/4\" wide, but the jointer takes 8\"; made up of "
                             "staves, it would find room.");
}

// The blank is 2 in longer than the bar. A board that is longer still is crosscut where it lies.
TEST(NearestMiss, LongerThanTheShopHandles) {
    Document job = oneBar();
    job.shop.machines.longestBoard = in(60);
    job.parts[0].length.base = in(58);
    job.boards = {board(job, "1", {4}, in(1))};
    EXPECT_EQ(reasonIn(job), "everything found a place");
    job.parts[0].length.base = in(117, 2);
    const Plan plan = planOf(job);
    EXPECT_TRUE(plan.boards.empty());
    ASSERT_EQ(plan.unplaced.size(), 1U);
    EXPECT_EQ(plan.unplaced[0].nearestMiss,
              "The blank is 60 1/2\" long, but the longest board handled in the shop is 60\"; made "
              "shorter, it would find room.");
    EXPECT_TRUE(audit(job, plan).passed());
}

TEST(NearestMiss, LongerThanAnyBoard) {
    Document job = oneBar();
    job.parts[0].length.base = in(93);
    job.boards = {board(job, "1", {4}, in(1))};
    EXPECT_EQ(reasonIn(job), "No board is 95\" long between its raw ends: the longest is board 1 "
                             "(4/4) with 94\". A board 1\" longer would free it.");
}

// 24 x 2 3/4 of a board 96 x 8 with 1 in of bow keeps 1 - 1/16 - 1/8 of its inch.
TEST(NearestMiss, ThickerThanWarpLeaves) {
    Document job = oneBar();
    job.parts[0].thickness.base = in(27, 32);
    job.boards = {board(job, "1", {4}, in(1))};
    job.boards[0].warp.bow = in(1);
    EXPECT_EQ(reasonIn(job), "No board reaches 7/8\" in thickness at 24\" in length: the best is "
                             "board 1 (4/4) with 13/16\". A flatter or thicker board, or a part "
                             "1/16\" thinner, would free it.");
}

TEST(NearestMiss, WiderThanTheBoards) {
    Document job = oneBar();
    job.parts[0].width.base = in(6);
    job.boards = {board(job, "1", {4}, in(1))};
    job.boards[0].outline = {{in(0), in(0)}, {in(96), in(0)}, {in(96), in(5)}, {in(0), in(5)}};
    EXPECT_EQ(reasonIn(job), "No place 6 1/4\" wide and 24\" long that is thick enough was found: "
                             "the widest is on board 1 (4/4) with 5\". A board 1 1/4\" wider would "
                             "free it.");
}

/// One board just large enough for the bar, 26 x 2 3/4 in between its raw ends 24 in.
Document tightJob() {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1))};
    job.boards[0].outline = {
        {in(0), in(0)}, {in(26), in(0)}, {in(26), in(11, 4)}, {in(0), in(11, 4)}};
    job.boards[0].lookedAt.clear();
    return job;
}

TEST(NearestMiss, FitsWithoutTheKnot) {
    EXPECT_EQ(reasonIn(tightJob()), "everything found a place");
}

// The finished bar ends 1 in before the blank does, at 24 in on the board: the hole, from 23 1/2 to
// 24 1/2, reaches 1/2 in into it, whichever way the bar is turned.
TEST(NearestMiss, ADefectThatIsForbidden) {
    Document job = tightJob();
    job.boards[0].defects = {defect(job, DefectKind::Split, {in(24), in(11, 8)}, in(1))};
    const std::string mark = job.boards[0].defects[0].mark;
    EXPECT_EQ(reasonIn(job),
              "Nearest: board 1 from 1\" to 25\", but split " + mark +
                  " lies in its show face, 1/2\" short of clear wood along the grain. "
                  "None is allowed there; rules that allow one would free the place.");
}

TEST(NearestMiss, AKnotThatIsTooLarge) {
    Document job = tightJob();
    // Hidden face: open knots are filled up to 2 1/2 in; the show face takes none, so both faces
    // follow the rules of the hidden one here.
    Zone both;
    both.id = job.takeId<ZoneId>();
    both.name = "body";
    both.role = ZoneRole::HiddenFace;
    both.rules = presetRules::hiddenFace;
    job.parts[0].zones = {both};
    for (RuleSet& rules : job.shop.ruleSets) {
        rules.rules[static_cast<std::size_t>(DefectKind::LooseKnot)].largest = in(1, 2);
    }
    job.boards[0].defects = {defect(job, DefectKind::LooseKnot, {in(24), in(11, 8)}, in(1))};
    const std::string mark = job.boards[0].defects[0].mark;
    EXPECT_EQ(reasonIn(job),
              "Nearest: board 1 from 1\" to 25\", but loose knot " + mark +
                  ", 1\" large, lies in its body, 1/2\" short of clear wood along the grain. Up to "
                  "1/2\" is allowed there; rules that allow more would free the place.");
}

// The joint's rules count 1 diameter of the knot along the grain as disturbed.
TEST(NearestMiss, AKnotWhoseDisturbedGrainIsInTheWay) {
    Document job = tightJob();
    Zone end;
    end.id = job.takeId<ZoneId>();
    end.name = "joint";
    end.role = ZoneRole::JoineryEnd;
    end.rules = presetRules::joint;
    job.parts[0].zones = {end};
    job.boards[0].defects = {defect(job, DefectKind::SoundKnot, {in(25), in(11, 8)}, in(1))};
    const std::string mark = job.boards[0].defects[0].mark;
    EXPECT_EQ(reasonIn(job),
              "Nearest: board 1 from 1\" to 25\", but sound knot " + mark +
                  " with the grain it disturbs lies in its joint, 1/2\" short of clear wood along "
                  "the grain. None is allowed there; rules that allow one would free the place.");
}

TEST(NearestMiss, AnotherPieceOfThePlan) {
    Document job = tightJob();
    job.parts[0].count = 2;
    EXPECT_EQ(reasonIn(job), "Nearest: board 1 from 1\" to 25\", but X1 takes 24 1/8\" of that "
                             "length. Another board for X1 would free the place.");
}

TEST(NearestMiss, APieceThatIsLocked) {
    Document job = tightJob();
    job.plan = planOf(job);
    job.nextId = largestId(*job.plan) + 1;
    job.parts[0].count = 2;
    Blank& placed = job.plan->boards.at(0).sections.at(0).strips.at(0).blanks.at(0);
    placed.locked = true;
    EXPECT_EQ(reasonIn(job), "Nearest: board 1 from 1\" to 25\", but X1 takes 24 1/8\" of that "
                             "length. Unlocking X1 and planning again may free it.");
}

/// explainUnplaced of a job whose plan is empty, within these limits.
std::string explained(const Document& job, const planning::ExplainLimits& limits) {
    const auto specs = blankSpecs(job);
    EXPECT_TRUE(specs.ok());
    Plan plan;
    plan.unplaced = {{purposeOf(specs.value()[0], 0), "No place found yet."}};
    planning::explainUnplaced(job, planning::state(job, specs.value(), {}), plan, limits);
    return plan.unplaced[0].nearestMiss;
}

Document jobOfFourBoardsWithSplits() {
    Document job = oneBar();
    for (const char* mark : {"1", "2", "3", "4"}) {
        Board made = board(job, mark, {4}, in(1));
        for (std::int64_t x = 6; x < 96; x += 8) {
            made.defects.push_back(defect(job, DefectKind::Split, {in(x), in(2)}, in(2)));
            made.defects.push_back(defect(job, DefectKind::Split, {in(x), in(6)}, in(2)));
        }
        job.boards.push_back(made);
    }
    return job;
}

TEST(NearestMiss, SaysWhenItIsRoomThatTheCutsDidNotReach) {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1))};
    EXPECT_EQ(explained(job, {}), "There is room on board 1 from 1\" to 25\", but none of the cuts "
                                  "that were tried leads to it; a longer search may find one that "
                                  "does.");
}

TEST(NearestMiss, StoppedItClaimsNothing) {
    std::stop_source stop;
    stop.request_stop();
    planning::ExplainLimits limits;
    limits.stop = stop.get_token();
    EXPECT_EQ(explained(jobOfFourBoardsWithSplits(), limits),
              "No place for it was found on the first 0 of 4 boards; the search for a reason ended "
              "there.");
}

TEST(NearestMiss, CutShortItSaysHowFarItLooked) {
    planning::ExplainLimits limits;
    limits.steps = 3'000;
    const std::string reason = explained(jobOfFourBoardsWithSplits(), limits);
    EXPECT_EQ(reason.find("Nearest so far, with "), 0U) << reason;
    EXPECT_NE(reason.find(" of 4 boards looked at: board "), std::string::npos) << reason;
}

TEST(NearestMiss, GivesTheSameWordsForTheSameSteps) {
    const Document job = jobOfFourBoardsWithSplits();
    planning::ExplainLimits limits;
    limits.steps = 5'000;
    EXPECT_EQ(explained(job, limits), explained(job, limits));
    const std::string whole = explained(job, {});
    EXPECT_EQ(whole.find("Nearest: board "), 0U) << whole;
}

TEST(NearestMiss, SaysHowMuchAPanelLacks) {
    Document job = oneBar();
    job.parts[0].width.base = in(12);
    job.parts[0].makeUp.panel = PanelMakeUp{in(2), in(6), 2, 8};
    job.boards = {board(job, "1", {4}, in(1))};
    job.boards[0].species = "black_walnut";
    EXPECT_EQ(reasonIn(job),
              "The staves are 13\" short of the panel's 13\". There is no board of the "
              "species White oak to cut it from; one of that species would free it.");
}

} // namespace
} // namespace stavewright
