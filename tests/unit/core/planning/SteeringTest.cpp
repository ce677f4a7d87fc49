// Plans that are steered: boards kept off, equal staves, match groups. Worked out by hand; common
// practice, no source.

#include <algorithm>
#include <set>

#include "core/audit/Audit.h"
#include "core/planning/Figures.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace small_job;

Plan steered(const Document& job, PlanOptions options) {
    options.seconds = 0;
    options.work = 500'000; // a small job proves its best first, and that takes most of it
    Result<PlanOutcome> outcome = planJob(job, options);
    EXPECT_TRUE(outcome.ok());
    Plan plan = outcome.ok() ? std::move(outcome.value().plan) : Plan{};
    EXPECT_TRUE(audit(job, plan).passed());
    return plan;
}

PlanOptions keptOff(PartId part, BoardId board) {
    PlanOptions options;
    options.keptOff.push_back({part, board});
    return options;
}

std::set<std::string> marksOf(const Document& job, const Plan& plan) {
    std::set<std::string> marks;
    for (const BoardLayout& layout : plan.boards) {
        marks.insert(findBoard(job, layout.board)->mark);
    }
    return marks;
}

void cutTo(Board& board, Length length, Length width) {
    board.outline = {{in(0), in(0)}, {length, in(0)}, {length, width}, {in(0), width}};
    board.lookedAt = {{BoardFace::A, {in(0), length}}, {BoardFace::B, {in(0), length}}};
}

TEST(KeptOff, APartTakesTheOtherBoardAndOtherPartsMayStay) {
    Document job = oneBar();
    Part other = job.parts[0];
    other.id = job.takeId<PartId>();
    other.mark = "Y";
    job.parts.push_back(other);
    job.boards = {board(job, "1", {4}, in(1)), board(job, "2", {4}, in(1))};
    job.boards[1].pricePerBoardFoot = Money::whole(12);
    EXPECT_EQ(marksOf(job, steered(job, PlanOptions())), std::set<std::string>{"1"});
    const Plan plan = steered(job, keptOff(job.parts[0].id, job.boards[0].id));
    EXPECT_TRUE(plan.unplaced.empty());
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    EXPECT_FALSE(layout.board == job.boards[0].id &&
                                 blank.purpose.part == job.parts[0].id);
                }
            }
        }
    }
}

TEST(KeptOff, FromEveryBoardItFindsNoPlace) {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1))};
    const Plan plan = steered(job, keptOff(job.parts[0].id, job.boards[0].id));
    EXPECT_EQ(plan.unplaced.size(), 1U);
    EXPECT_TRUE(plan.boards.empty());
}

TEST(EqualStaves, FillThePanelWithOneWidth) {
    Document job = oneBar();
    Part& panel = job.parts[0];
    panel.width.base = in(12);
    panel.makeUp.panel = PanelMakeUp{in(2), in(5), 1, 8};
    job.boards = {board(job, "1", {4}, in(1))};
    PlanOptions options;
    options.weights.equalStaves[panel.id] = 4;
    const Plan plan = steered(job, options);
    EXPECT_TRUE(plan.unplaced.empty());
    std::multiset<Length> widths;
    for (const Section& section : plan.boards.at(0).sections) {
        for (const Strip& strip : section.strips) {
            for (const Blank& blank : strip.blanks) {
                widths.insert(blank.rect.width());
            }
        }
    }
    EXPECT_EQ(widths.size(), 4U);
    EXPECT_EQ(widths.count(*widths.begin()), 4U);
}

/// Two bars for a group; two boards for one bar each, and one a little dearer for both.
Document pairOrOne(Money groupApart) {
    Document job = oneBar();
    job.parts[0].count = 2;
    job.shop.prices.groupApart = groupApart;
    job.groups = {{job.takeId<GroupId>(), "pair", MatchGroup::Want::OneBoard, {job.parts[0].id}}};
    job.boards = {board(job, "1", {4}, in(1)), board(job, "2", {4}, in(1)),
                  board(job, "3", {4}, in(1))};
    cutTo(job.boards[0], in(30), in(7, 2));
    cutTo(job.boards[1], in(30), in(7, 2));
    cutTo(job.boards[2], in(64), in(7, 2));
    job.boards[2].pricePerBoardFoot = Money::whole(12);
    return job;
}

bool isRemarked(const Document& job, const Plan& plan) {
    const AuditReport report = audit(job, plan);
    return std::any_of(report.findings.begin(), report.findings.end(), [](const Finding& finding) {
        return finding.kind == FindingKind::GroupApart;
    });
}

TEST(MatchGroup, ComesFromOneBoardWhereThatCostsLessThanTheWeight) {
    const Document job = pairOrOne(Money::whole(20));
    const Plan plan = steered(job, PlanOptions());
    EXPECT_EQ(marksOf(job, plan), std::set<std::string>{"3"});
    EXPECT_FALSE(isRemarked(job, plan));
    EXPECT_EQ(groupsApart(job, plan), Money());
}

TEST(MatchGroup, ComesFromTwoWhereOneBoardCostsMoreAndTheAuditRemarksIt) {
    const Document job = pairOrOne(Money::cents(50));
    const Plan plan = steered(job, PlanOptions());
    EXPECT_EQ(marksOf(job, plan), (std::set<std::string>{"1", "2"}));
    EXPECT_TRUE(isRemarked(job, plan));
    EXPECT_EQ(groupsApart(job, plan), Money::cents(50));
}

TEST(MatchGroup, IsNoPartOfWhatIsProved) {
    Document job = pairOrOne(Money::cents(50));
    const Plan plan = steered(job, PlanOptions());
    if (plan.origin.proof) { // where the search came to prove something
        EXPECT_LE(plan.origin.proof->least, plan.origin.proof->counted);
        EXPECT_EQ(plan.origin.proof->counted, countedFor(job, plan) - groupsApart(job, plan));
    }
}

} // namespace
} // namespace stavewright
