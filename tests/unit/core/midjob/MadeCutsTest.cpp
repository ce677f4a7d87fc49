// Cuts marked as made: what is cut stays cut, what was cut short goes elsewhere, and the job is the
// identical one after undoing and doing again.

#include "core/midjob/MadeCuts.h"

#include <random>

#include "core/hand/PlanTree.h"
#include "core/planning/Planner.h"
#include "tests/unit/core/midjob/ShopSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::midjob {
namespace {

using namespace shop_sample;
using small_job::in;

const Note note{1'760'000'000, "tape slipped"};

TEST(MadeCuts, EveryCutOfABoardOnItsMarkLosesNothing) {
    Document job = planned(samples::hallShelf());
    const PlanTotals before = job.plan->totals;
    const BoardId board = job.plan->boards[0].board;
    int made = 0;
    for (auto cuts = hand::cutsOn(job, board); !cuts.empty() && made < 60;
         cuts = hand::cutsOn(job, board)) {
        const auto window = hand::SafeWindows(job).windowOf(board, cuts.front());
        ASSERT_TRUE(window);
        const Result<ShopEvent> event = cutMade(job, board, cuts.front(), window->mark, note);
        SCOPED_TRACE(event ? event.value().sentence : describe(event.error()));
        ASSERT_NO_FATAL_FAILURE(take(job, event));
        EXPECT_TRUE(event.value().lost.empty());
        EXPECT_TRUE(event.value().moved.empty());
        EXPECT_EQ(job.log.back().why, "tape slipped");
        const auto after = hand::cutsOn(job, board);
        ASSERT_LT(after.size(), cuts.size());
        ++made;
    }
    EXPECT_GT(made, 4);
    EXPECT_TRUE(hand::cutsOn(job, board).empty());
    EXPECT_EQ(job.plan->totals.placed, before.placed);
}

TEST(MadeCuts, BeyondTheWindowThePieceIsLostAndSaid) {
    const Document job = planned(samples::kitchenTable());
    int tried = 0;
    for (const BoardLayout& layout : job.plan->boards) {
        const hand::SafeWindows windows(job);
        for (const hand::CutWindow& window : windows.onBoard(layout.board)) {
            if (window.openBelow || window.lostBelow.empty() || window.cut.strip || tried >= 3) {
                continue;
            }
            const Result<ShopEvent> event =
                cutMade(job, layout.board, window.cut, window.window.from - in(1, 16), note);
            SCOPED_TRACE(event ? event.value().sentence : describe(event.error()));
            Document cut = job;
            ASSERT_NO_FATAL_FAILURE(take(cut, event));
            EXPECT_FALSE(event.value().lost.empty());
            EXPECT_GT(event.value().lumberLost, BoardFeet());
            EXPECT_GT(event.value().moneyLost, Money());
            ++tried;
        }
    }
    EXPECT_GT(tried, 0);
}

TEST(MadeCuts, AMeasuredSizeCountsAgainstTheFinishedOne) {
    const Document planned = shop_sample::planned(samples::hallShelf());
    int kept = 0;
    int lost = 0;
    for (const BlankId id : blanksOf(*planned.plan)) {
        const Rect rect = hand::blankAt(*planned.plan, *hand::placeOf(*planned.plan, id)).rect;
        Document job = planned;
        Result<ShopEvent> event =
            sizeMeasured(job, id, rect.length() - Length::millimetres(2), rect.width(), note);
        ASSERT_NO_FATAL_FAILURE(take(job, event));
        kept += event.value().lost.empty() ? 1 : 0;
        const auto place = hand::placeOf(*job.plan, id);
        if (place) {
            EXPECT_TRUE(hand::isParted(hand::blankAt(*job.plan, *place)));
        }
        job = planned;
        event = sizeMeasured(job, id, rect.length() / 2, rect.width(), note);
        ASSERT_NO_FATAL_FAILURE(take(job, event));
        lost += event.value().lost.size() == 1 ? 1 : 0;
        EXPECT_FALSE(sizeMeasured(planned, id, Length(), rect.width(), note).ok());
    }
    EXPECT_GT(kept, 0);
    EXPECT_EQ(static_cast<std::size_t>(lost), blanksOf(*planned.plan).size());
}

TEST(MadeCuts, AFreshEndShortensTheBoard) {
    Document job = planned(samples::hallShelf());
    for (const hand::End end : {hand::End::Low, hand::End::High}) {
        Document cut = job;
        const BoardLayout layout = cut.plan->boards[0];
        const Board& board = *findBoard(cut, layout.board);
        const Length reading = end == hand::End::Low ? in(6) : lengthOf(board) - in(6);
        const Result<ShopEvent> event = freshEnd(cut, layout.board, end, reading, note);
        SCOPED_TRACE(event ? event.value().sentence : describe(event.error()));
        ASSERT_NO_FATAL_FAILURE(take(cut, event));
        for (const BoardLayout& each : cut.plan->boards) {
            for (const Section& section : each.sections) {
                if (each.board == layout.board && !section.strips.empty()) {
                    EXPECT_GE(section.along.from, end == hand::End::Low ? reading : Length());
                    EXPECT_LE(section.along.to, end == hand::End::Low ? lengthOf(board) : reading);
                }
            }
        }
        // No later planning uses the wood that is gone.
        const Result<PlanOutcome> again =
            planJob(cut, {.seed = 3, .seconds = 0, .work = 300, .threads = 1});
        ASSERT_TRUE(again.ok());
        EXPECT_TRUE(audit(cut, again.value().plan).passed());
    }
    EXPECT_FALSE(freshEnd(job, job.plan->boards[0].board, hand::End::Low, in(9999), note).ok());
}

TEST(MadeCuts, StatesGoTheWayOfThePiece) {
    Document job = planned(samples::kitchenTable());
    std::set<CutState> seen;
    for (const BlankId id : blanksOf(*job.plan)) {
        const BlankPurpose purpose =
            hand::blankAt(*job.plan, *hand::placeOf(*job.plan, id)).purpose;
        if (job.plan->boards.empty() || seen.size() > 6) {
            break;
        }
        for (const CutState state : statesFor(job, purpose)) {
            const Result<ShopEvent> event = stateReached(job, id, state, note);
            ASSERT_NO_FATAL_FAILURE(take(job, event));
            seen.insert(state);
        }
        const Part& part = *findPart(job, purpose.part);
        if (!part.makeUp.lamination) {
            EXPECT_FALSE(stateReached(job, id, CutState::SecondMilled, note).ok());
        }
        if (blanksOf(*job.plan).front() != id) {
            break;
        }
    }
    EXPECT_GE(seen.size(), 5U);
}

} // namespace
} // namespace stavewright::midjob
