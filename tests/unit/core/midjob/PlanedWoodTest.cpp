// Wood that is milled is planed: nothing thicker than that comes from it, whoever lays it there,
// and what is lost does not take the knowledge of it along.

#include <algorithm>

#include "core/hand/Drag.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/layout/PieceState.h"
#include "core/midjob/MadeCuts.h"
#include "core/midjob/Mishaps.h"
#include "core/midjob/PlanRest.h"
#include "core/milling/BlankSpec.h"
#include "tests/unit/core/midjob/ShopSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::midjob {
namespace {

using namespace shop_sample;
using small_job::in;

const Note note{1'760'000'000, ""};

constexpr std::size_t thin = 0;
constexpr std::size_t thick = 1;
constexpr std::size_t thinToo = 2;

/// Bars X of 24 in and Z of 14 in, 3/4 in thick, and Y of 14 in, 1 1/8 in thick, all 2 3/4 in wide.
Document threeBars() {
    Document job = small_job::oneBar();
    job.shop.mostPlanedAway = in(1);
    for (const char* mark : {"Y", "Z"}) {
        Part shorter = job.parts[thin];
        shorter.id = job.takeId<PartId>();
        shorter.mark = mark;
        shorter.length.base = in(12);
        shorter.thickness.base = *mark == 'Y' ? in(9, 8) : in(3, 4);
        job.parts.push_back(shorter);
    }
    return job;
}

/// 6/4, so long and 8 in wide.
BoardId addBoard(Document& job, std::int64_t length) {
    Board board =
        small_job::board(job, std::to_string(job.boards.size() + 1), Quarter{6}, in(3, 2));
    board.outline = {{in(0), in(0)}, {in(length), in(0)}, {in(length), in(8)}, {in(0), in(8)}};
    board.lookedAt = {{BoardFace::A, {in(0), in(length)}}, {BoardFace::B, {in(0), in(length)}}};
    board.trimAtDatum = board.trimAtFar = in(1);
    job.boards.push_back(board);
    return board.id;
}

/// A section 24 in long behind the raw end of the board, with a strip for each of the parts.
BoardLayout sectionOf(Document& job, BoardId board, const std::vector<std::size_t>& parts,
                      FirstFacing facing = FirstFacing::Whole) {
    Section section;
    section.id = job.takeId<SectionId>();
    section.along = {in(1), in(25)};
    section.frame.origin = {in(1), in(0)};
    section.facing = facing;
    Length low;
    for (const std::size_t part : parts) {
        Strip strip;
        strip.id = job.takeId<StripId>();
        strip.across = {low, low + in(11, 4)};
        Blank blank;
        blank.id = job.takeId<BlankId>();
        blank.purpose = {job.parts[part].id, 1, 0, 0};
        blank.rect = {in(0), low, part == thin ? in(24) : in(14), low + in(11, 4)};
        strip.blanks = {blank};
        section.strips.push_back(strip);
        low += in(3);
    }
    return {board, {section}, false};
}

void plan(Document& job, const std::vector<BoardLayout>& layouts) {
    job.plan = Plan{};
    job.plan->boards = layouts;
    for (const Part& part : job.parts) {
        const BlankPurpose purpose{part.id, 1, 0, 0};
        const auto isLaid = [&](const BoardLayout& layout) {
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        if (blank.purpose == purpose) {
                            return true;
                        }
                    }
                }
            }
            return false;
        };
        if (std::none_of(layouts.begin(), layouts.end(), isLaid)) {
            job.plan->unplaced.push_back({purpose, "not laid yet"});
        }
    }
    job.plan->totals = totalsOf(job, *job.plan).value();
    ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
}

BlankId blankOf(const Document& job, std::size_t part) {
    for (const BlankId id : blanksOf(*job.plan)) {
        if (hand::blankAt(*job.plan, *hand::placeOf(*job.plan, id)).purpose.part ==
            job.parts[part].id) {
            return id;
        }
    }
    return {};
}

bool isUnplaced(const Plan& plan, PartId part) {
    return std::any_of(plan.unplaced.begin(), plan.unplaced.end(),
                       [part](const Unplaced& each) { return each.purpose.part == part; });
}

/// The thin bar on a board of 26 in, milled; of the section 5 in are free beside it.
Document thinBarMilled(FirstFacing facing = FirstFacing::Whole) {
    Document job = threeBars();
    const BoardId board = addBoard(job, 26);
    plan(job, {sectionOf(job, board, {thin}, facing)});
    const Result<ShopEvent> event = stateReached(job, blankOf(job, thin), CutState::Milled, note);
    EXPECT_TRUE(event.ok());
    takeOfMany(job, event);
    return job;
}

Length neededFor(const Document& job, std::size_t part) {
    return thicknessToReach(job, job.parts[part], job.parts[part].thickness.base);
}

TEST(PlanedWood, IsNotedWhenItIsMilledAndForgottenWhenThatIsTakenBack) {
    Document job = thinBarMilled();
    EXPECT_EQ(job.plan->boards[0].sections[0].planedTo, neededFor(job, thin));
    expectWritten(job);
    takeOfMany(job, stateReached(job, blankOf(job, thin), CutState::Cut, note));
    EXPECT_FALSE(job.plan->boards[0].sections[0].planedTo);
}

TEST(PlanedWood, IsAsThickAsTheThickestBlankInIt) {
    Document job = threeBars();
    plan(job, {sectionOf(job, addBoard(job, 26), {thin, thick})});
    takeOfMany(job, stateReached(job, blankOf(job, thin), CutState::Milled, note));
    EXPECT_EQ(job.plan->boards[0].sections[0].planedTo, neededFor(job, thick));
    // The thick one goes; the wood is what it is.
    takeOfMany(job, spoiled(job, blankOf(job, thick), note));
    EXPECT_EQ(job.plan->boards[0].sections[0].planedTo, neededFor(job, thick));
}

TEST(PlanedWood, StaysNotedWhenAllThatWasMilledIsLost) {
    Document job = thinBarMilled();
    takeOfMany(job, spoiled(job, blankOf(job, thin), note));
    const Section& section = job.plan->boards[0].sections[0];
    EXPECT_EQ(section.state, CutState::Milled);
    EXPECT_EQ(section.planedTo, neededFor(job, thin));
}

TEST(PlanedWood, TakesNothingThickerFromTheHand) {
    const Document job = thinBarMilled();
    const BoardId board = job.boards[0].id;
    const SectionId section = job.plan->boards[0].sections[0].id;
    const hand::Drag thicker = hand::Drag::fromTray(job, {job.parts[thick].id, 1, 0, 0}).value();
    const hand::Drag::Held held = thicker.at(board, {in(2), in(4)}, {}, Length());
    EXPECT_FALSE(held.isLegal);
    EXPECT_EQ(held.words, "Y1 needs wood 1 5/32\" thick; section 1 of board 1 is planed already, "
                          "and nothing thicker than 25/32\" comes from it; there is no legal place "
                          "for it on board 1.");
    ASSERT_EQ(held.laying.bed.section, section);
    Document laid = job;
    ASSERT_TRUE(apply(laid, thicker.drop(held.laying).value()).ok());
    const AuditReport report = audit(laid);
    EXPECT_EQ(report.failures(), 1U);
    EXPECT_EQ(report.findings.front().kind, FindingKind::PlanedTooThin);
    // What is no thicker may come from it.
    const hand::Drag alike = hand::Drag::fromTray(job, {job.parts[thinToo].id, 1, 0, 0}).value();
    EXPECT_TRUE(alike.at(board, {in(2), in(4)}, {}, Length()).isLegal);
}

TEST(PlanedWood, IsNoReasonToStayOffTheRestOfTheBoard) {
    Document job = threeBars();
    plan(job, {sectionOf(job, addBoard(job, 60), {thin})});
    takeOfMany(job, stateReached(job, blankOf(job, thin), CutState::Milled, note));
    const hand::Drag thicker = hand::Drag::fromTray(job, {job.parts[thick].id, 1, 0, 0}).value();
    const hand::Drag::Held held = thicker.at(job.boards[0].id, {in(2), in(4)}, {}, Length());
    EXPECT_FALSE(held.isLegal);
    ASSERT_TRUE(held.nearest) << held.words;
    EXPECT_NE(held.nearest->bed.section, job.plan->boards[0].sections[0].id);
}

TEST(PlanedWood, TakesNothingThickerInASwap) {
    Document job = threeBars();
    const BoardId first = addBoard(job, 26);
    const BoardId second = addBoard(job, 26);
    plan(job, {sectionOf(job, first, {thin, thinToo}), sectionOf(job, second, {thick})});
    takeOfMany(job, stateReached(job, blankOf(job, thin), CutState::Milled, note));
    ASSERT_TRUE(
        apply(job, hand::swap(job, blankOf(job, thinToo), blankOf(job, thick)).value()).ok());
    const AuditReport report = audit(job);
    ASSERT_EQ(report.failures(), 1U);
    EXPECT_EQ(report.findings.front().sentence,
              "Y1 needs wood 1 5/32\" thick; section 1 of board 1 is planed already, and nothing "
              "thicker than 25/32\" comes from it.");
}

TEST(PlanedWood, TakesNothingThickerWhereTheRestIsPlannedAgain) {
    // All there is for the others is beside the bar that is milled.
    for (const std::size_t part : {thick, thinToo}) {
        Document job = threeBars();
        const BoardId first = addBoard(job, 26);
        const BoardId second = addBoard(job, 26);
        std::erase_if(job.parts, [&](const Part& each) {
            return each.id == job.parts[part == thick ? thinToo : thick].id;
        });
        plan(job, {sectionOf(job, first, {thin}), sectionOf(job, second, {1})});
        takeOfMany(job, stateReached(job, blankOf(job, thin), CutState::Milled, note));
        takeOfMany(job, boardRejected(job, second, note));
        EXPECT_EQ(isUnplaced(*job.plan, job.parts[1].id), part == thick);
        for (const RestMode mode : {RestMode::KeepPlaces, RestMode::FromScratch}) {
            const Result<RestOutcome> rest =
                planRest(job, mode, {.seed = 1, .seconds = 0, .work = 60, .threads = 1});
            ASSERT_TRUE(rest.ok());
            const Plan& after = rest.value().outcome.plan;
            EXPECT_TRUE(audit(job, after).passed());
            EXPECT_EQ(isUnplaced(after, job.parts[1].id), part == thick);
        }
    }
}

TEST(PlanedWood, LetsGoOfWhatIsThickerOnceTheRestIsPlannedAgain) {
    // Z is planned beside the milled bar; then the maker wants it thicker.
    Document job = threeBars();
    std::erase_if(job.parts, [](const Part& each) { return each.mark == "Y"; });
    const BoardId first = addBoard(job, 26);
    addBoard(job, 26);
    plan(job, {sectionOf(job, first, {thin, 1})});
    takeOfMany(job, stateReached(job, blankOf(job, thin), CutState::Milled, note));
    Part thicker = job.parts[1];
    thicker.thickness.base = in(9, 8);
    ASSERT_TRUE(apply(job, Edit{ReplacePart{thicker}}).ok());
    EXPECT_FALSE(audit(job).passed());
    for (const RestMode mode : {RestMode::KeepPlaces, RestMode::FromScratch}) {
        const Result<RestOutcome> rest =
            planRest(job, mode, {.seed = 1, .seconds = 0, .work = 60, .threads = 1});
        ASSERT_TRUE(rest.ok());
        EXPECT_TRUE(audit(job, rest.value().outcome.plan).passed());
        EXPECT_FALSE(isUnplaced(rest.value().outcome.plan, thicker.id));
    }
}

TEST(PlanedWood, AStripThatWasRippedFirstStaysMilledWhenItsBlankIsLost) {
    for (const bool openKnot : {false, true}) {
        Document job = thinBarMilled(FirstFacing::RoughRippedFirst);
        EXPECT_EQ(job.plan->boards[0].sections[0].strips[0].planedTo, neededFor(job, thin));
        const BlankId bar = blankOf(job, thin);
        const Result<Defect> hole =
            markedOnBlank(job, bar, DefectKind::KnotHole, {in(19), in(1), in(1), in(1)}, true);
        ASSERT_TRUE(hole.ok());
        const Result<ShopEvent> event = openKnot
                                            ? defectFound(job, job.boards[0].id, hole.value(), note)
                                            : spoiled(job, bar, note);
        ASSERT_NO_FATAL_FAILURE(take(job, event));
        ASSERT_EQ(event.value().lost.size(), 1U) << event.value().sentence;
        const Section& section = job.plan->boards[0].sections[0];
        const Strip& strip = section.strips[0];
        EXPECT_TRUE(isMilled(section, strip));
        EXPECT_EQ(planedTo(section, strip), neededFor(job, thin));
        EXPECT_EQ(section.state, CutState::Cut); // its other strips are not
        if (!openKnot) {
            continue;
        }
        // What is left of it is laid out for Z: that is milled, and not to be milled again.
        const hand::Drag alike =
            hand::Drag::fromTray(job, {job.parts[thinToo].id, 1, 0, 0}).value();
        const hand::Drag::Held held = alike.at(job.boards[0].id, {in(1), in(0)}, {}, Length());
        ASSERT_TRUE(held.isLegal) << held.words;
        ASSERT_TRUE(apply(job, alike.drop(held.laying).value()).ok());
        const hand::TreePlace place = *hand::placeOf(*job.plan, blankOf(job, thinToo));
        EXPECT_EQ(stateOf(hand::sectionAt(*job.plan, place), hand::blankAt(*job.plan, place)),
                  CutState::Milled);
    }
}

} // namespace
} // namespace stavewright::midjob
