// Boards kept for a part and parts kept off a board: the planner keeps to it, the audit sees it, a
// blank in the hand is told, and the job file holds it.

#include "core/layout/BoardRule.h"

#include <set>

#include "core/hand/Drag.h"
#include "core/hand/PlanTree.h"
#include "core/job/JobFile.h"
#include "tests/unit/core/hand/HandSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace hand_sample;
using small_job::in;

/// Three boards of 96 x 8 in, six bars of one part and six of another.
Document twoParts() {
    Document job = small_job::oneBar();
    for (const char* mark : {"1", "2", "3"}) {
        job.boards.push_back(small_job::board(job, mark, Quarter{4}, in(1)));
    }
    job.parts[0].count = 6;
    Part other = job.parts[0];
    other.id = job.takeId<PartId>();
    other.mark = "Y";
    job.parts.push_back(other);
    return job;
}

/// Parts that have a blank reaching into this stretch of the board.
std::set<PartId> partsOn(const Plan& plan, BoardId board, Stretch along) {
    std::set<PartId> parts;
    if (const BoardLayout* layout = hand::layoutOf(plan, board)) {
        for (const Section& section : layout->sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const Rect box = hand::boxOnBoard(section, blank.rect);
                    if (box.x0 < along.to && along.from < box.x1) {
                        parts.insert(blank.purpose.part);
                    }
                }
            }
        }
    }
    return parts;
}

TEST(BoardRules, APlanKeepsToThem) {
    Document job = twoParts();
    const PartId x = job.parts[0].id;
    const PartId y = job.parts[1].id;
    job.boardRules = {{BoardRule::Kind::KeptFor, job.boards[0].id, y, {}},
                      {BoardRule::Kind::KeptOff, job.boards[1].id, y, {}},
                      {BoardRule::Kind::KeptFor, job.boards[2].id, x, Stretch{in(30), in(60)}}};
    ASSERT_TRUE(validate(job).ok());
    job = planned(job);
    EXPECT_TRUE(job.plan->unplaced.empty()) << small_job::reasons(*job.plan);
    expectAudited(job);
    const Stretch whole{in(0), in(96)};
    EXPECT_FALSE(partsOn(*job.plan, job.boards[0].id, whole).contains(x));
    EXPECT_FALSE(partsOn(*job.plan, job.boards[1].id, whole).contains(y));
    EXPECT_FALSE(partsOn(*job.plan, job.boards[2].id, {in(30), in(60)}).contains(y));
}

TEST(BoardRules, TheAuditNamesWhatBreaksThem) {
    Document job = planned(twoParts());
    const BoardLayout& layout = job.plan->boards.front();
    const Blank& blank =
        blanksOf(*job.plan).empty()
            ? Blank{}
            : hand::blankAt(*job.plan, *hand::placeOf(*job.plan, blanksOf(*job.plan).front()));
    job.boardRules = {{BoardRule::Kind::KeptOff, layout.board, blank.purpose.part, {}}};
    const AuditReport report = audit(job);
    ASSERT_FALSE(report.passed());
    EXPECT_EQ(report.findings.front().kind, FindingKind::AgainstBoardRule);
    EXPECT_NE(report.findings.front().sentence.find("is kept off."), std::string::npos)
        << report.findings.front().sentence;
}

TEST(BoardRules, ABlankInTheHandIsTold) {
    Document job = twoParts();
    job.plan = Plan{};
    const BlankPurpose purpose{job.parts[0].id, 1, 0, 0};
    job.boardRules = {
        {BoardRule::Kind::KeptFor, job.boards[0].id, job.parts[1].id, Stretch{in(30), in(60)}}};
    Result<hand::Drag> drag = hand::Drag::fromTray(job, purpose);
    ASSERT_TRUE(drag.ok());
    const hand::Drag::Held held = drag.value().at(job.boards[0].id, {in(25), in(1)}, {}, Length());
    EXPECT_FALSE(held.isLegal);
    EXPECT_NE(held.words.find("kept for part Y"), std::string::npos) << held.words;
    ASSERT_TRUE(held.nearest);
    EXPECT_EQ(held.nearest->along, in(6)); // 24 in long, up to 30 in
}

TEST(BoardRules, TheyStandInTheJobFile) {
    Document job = twoParts();
    EXPECT_EQ(toJson(job).find("boardRules"), std::string::npos);
    job.boardRules = {
        {BoardRule::Kind::KeptFor, job.boards[0].id, job.parts[1].id, Stretch{in(30), in(60)}},
        {BoardRule::Kind::KeptOff, job.boards[1].id, job.parts[0].id, {}}};
    const Result<Document> read = fromJson(toJson(job));
    ASSERT_TRUE(read.ok()) << describe(read.error());
    EXPECT_EQ(read.value(), job);
    job.boardRules[0].along = Stretch{in(60), in(30)};
    EXPECT_FALSE(validate(job).ok());
    job.boardRules[0].along.reset();
    job.boardRules[0].part = PartId{999};
    EXPECT_FALSE(validate(job).ok());
}

TEST(BoardRules, ABoardThatGoesTakesThemAlongAndBringsThemBack) {
    Document job = twoParts();
    job.boardRules = {{BoardRule::Kind::KeptOff, job.boards[0].id, job.parts[0].id, {}},
                      {BoardRule::Kind::KeptOff, job.boards[1].id, job.parts[0].id, {}}};
    doUndoRedo(job, Edit{RemoveBoard{job.boards[0].id}});
    EXPECT_EQ(job.boardRules.size(), 1U);
    doUndoRedo(job, Edit{RemovePart{job.parts[0].id}});
    EXPECT_TRUE(job.boardRules.empty());
}

} // namespace
} // namespace stavewright
