// Cuts marked as made: what is cut stays cut, what was cut short goes elsewhere, and the job is the
// identical one after undoing and doing again.

#include "core/midjob/MadeCuts.h"

#include <random>
#include <regex>

#include "core/hand/PlanTree.h"
#include "core/midjob/Words.h"
#include "core/planning/Planner.h"
#include "tests/unit/core/hand/BarsInAStrip.h"
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
    const hand::SafeWindows windows(job);
    for (const BoardLayout& layout : job.plan->boards) {
        for (const hand::CutRef& crosscut : hand::cutsOn(job, layout.board)) {
            if (crosscut.strip || tried >= 3) {
                continue; // a window is only worked out where it is asked for below
            }
            const auto window = windows.windowOf(layout.board, crosscut);
            if (!window || window->openBelow || window->lostBelow.empty()) {
                continue;
            }
            const Result<ShopEvent> event =
                cutMade(job, layout.board, crosscut, window->window.from - in(1, 16), note);
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

/// Of the blanks in the section, in the board frame.
bool reachesPast(const Section& section, Length end) {
    for (const Strip& strip : section.strips) {
        for (const Blank& blank : strip.blanks) {
            const Rect wood = boundingBox(toOuter(section.frame, woodOf(blank)));
            if (wood.x1 > end + polygonTolerance) {
                return true;
            }
        }
    }
    return false;
}

/// What came out shorter is named with the length it has now.
void expectSizesSaid(const Document& before, const Document& after) {
    for (const BlankId id : blanksOf(*after.plan)) {
        const auto was = hand::placeOf(*before.plan, id);
        const Blank& blank = hand::blankAt(*after.plan, *hand::placeOf(*after.plan, id));
        const Length length = woodOf(blank).length();
        if (was && woodOf(hand::blankAt(*before.plan, *was)).length() - length > in(1, 8)) {
            const std::string said =
                labelOf(after, blank.purpose) + " " + saidReading(after, length) + " long instead";
            EXPECT_NE(after.log.back().what.find(said), std::string::npos)
                << said << ": " << after.log.back().what;
        }
    }
}

// A blank that a late low crosscut has left shorter is cut, but its section is not cut off: who
// crosscuts it at a far end that counts as made already spoils the wood behind it.
TEST(MadeCuts, ALateLowCrosscutLeavesTheFarOneToMake) {
    int tried = 0;
    for (const Document& job : {planned(samples::kitchenTable()), planned(samples::hallShelf())}) {
        const hand::SafeWindows windows(job);
        for (const BoardLayout& layout : job.plan->boards) {
            for (const hand::CutRef& low : hand::cutsOn(job, layout.board)) {
                const hand::CutRef far{low.section, {}, true, {}};
                if (low.strip || low.high || !hand::markOf(job, layout.board, far)) {
                    continue;
                }
                const std::vector<hand::CutRef> all = hand::cutsOn(job, layout.board);
                const auto window = windows.windowOf(layout.board, low);
                if (!window || window->window.to <= window->mark ||
                    std::find(all.begin(), all.end(), far) == all.end()) {
                    continue;
                }
                SCOPED_TRACE(findBoard(job, layout.board)->mark);
                Document cut = job;
                ASSERT_NO_FATAL_FAILURE(
                    take(cut, cutMade(cut, layout.board, low, window->window.to, note)));
                expectSizesSaid(job, cut);
                const std::vector<hand::CutRef> left = hand::cutsOn(cut, layout.board);
                ASSERT_EQ(std::count(left.begin(), left.end(), far), 1);
                EXPECT_EQ(std::count(left.begin(), left.end(), low), 0);
                const Length end = *hand::markOf(cut, layout.board, far);
                for (const Section& each : hand::layoutOf(*cut.plan, layout.board)->sections) {
                    EXPECT_FALSE(each.id == low.section && reachesPast(each, end));
                }
                const Result<ShopEvent> event = cutMade(cut, layout.board, far, end, note);
                ASSERT_NO_FATAL_FAILURE(take(cut, event));
                EXPECT_TRUE(event.value().lost.empty());
                const std::vector<hand::CutRef> after = hand::cutsOn(cut, layout.board);
                EXPECT_EQ(std::count(after.begin(), after.end(), far), 0);
                EXPECT_EQ(std::count(after.begin(), after.end(), low), 0);
                ++tried;
            }
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

/// The first cut of this kind on any board with at least so many cuts before it.
std::optional<std::pair<BoardId, hand::CutRef>> lateCut(const Document& job, hand::CutKind kind,
                                                        std::size_t before) {
    for (const BoardLayout& layout : job.plan->boards) {
        for (const hand::CutRef& cut : hand::cutsOn(job, layout.board)) {
            if (cut.kind() == kind && earlierThan(job, layout.board, cut).size() >= before) {
                return std::pair{layout.board, cut};
            }
        }
    }
    return std::nullopt;
}

class LaterCutFirst : public testing::TestWithParam<Document (*)()> {};

TEST_P(LaterCutFirst, SaysWhatOfTheEarlierOnes) {
    const Document job = planned(GetParam()());
    for (const hand::CutKind kind :
         {hand::CutKind::Crosscut, hand::CutKind::Rip, hand::CutKind::Second}) {
        SCOPED_TRACE(hand::nameOf(kind));
        const auto found = lateCut(job, kind, 2);
        ASSERT_TRUE(found);
        const auto& [board, cut] = *found;
        const std::vector<hand::CutRef> earlier = earlierThan(job, board, cut);
        const Length mark = *hand::markOf(job, board, cut);
        const std::string number = std::to_string(earlier.size());

        Document asMarked = job;
        Result<ShopEvent> event = cutMade(asMarked, board, cut, mark, note);
        ASSERT_NO_FATAL_FAILURE(take(asMarked, event));
        EXPECT_NE(event.value().sentence.find("The " + number +
                                              " cuts before it count as made on "
                                              "their marks."),
                  std::string::npos)
            << event.value().sentence;
        std::vector<hand::CutRef> left = hand::cutsOn(asMarked, board);
        for (const hand::CutRef& each : earlier) {
            EXPECT_EQ(std::count(left.begin(), left.end(), each), 0);
        }

        Document still = job;
        event = cutMade(still, board, cut, mark, note, Earlier::StillToMake);
        ASSERT_NO_FATAL_FAILURE(take(still, event));
        EXPECT_TRUE(event.value().lost.empty());
        EXPECT_NE(event.value().sentence.find("are still to be made."), std::string::npos);
        left = hand::cutsOn(still, board);
        EXPECT_EQ(std::count(left.begin(), left.end(), cut), 0);
        for (const hand::CutRef& each : earlier) {
            EXPECT_EQ(std::count(left.begin(), left.end(), each), 1);
        }
        // Those before it are made afterwards, each on its mark, until nothing is left.
        for (int made = 0; !left.empty() && made < 80; ++made) {
            const hand::CutRef now = left.front();
            const Length where = *hand::markOf(still, board, now);
            const PlanTotals totals = still.plan->totals;
            event = cutMade(still, board, now, where, note);
            ASSERT_NO_FATAL_FAILURE(takeOfMany(still, event));
            EXPECT_TRUE(event.value().lost.empty()) << event.value().sentence;
            EXPECT_TRUE(event.value().moved.empty()) << event.value().sentence;
            EXPECT_EQ(still.plan->totals.cost, totals.cost) << event.value().sentence;
            const std::vector<hand::CutRef> after = hand::cutsOn(still, board);
            ASSERT_LT(after.size(), left.size()) << event.value().sentence;
            left = after;
        }
        EXPECT_TRUE(left.empty());
        expectWritten(still);
    }
}

INSTANTIATE_TEST_SUITE_P(MadeCuts, LaterCutFirst,
                         testing::Values(samples::kitchenTable, samples::hallShelf));

/// A sliver before a strip falls free of it after the strip's far edge is ripped.
TEST(MadeCuts, ASliverIsRippedOffAfterTheFarEdgeOfItsStrip) {
    std::uint64_t tried = 0;
    for (const Document& job : {planned(samples::hallShelf()), planned(samples::kitchenTable()),
                                planned(samples::linenChest())}) {
        for (const BoardLayout& layout : job.plan->boards) {
            for (const Section& section : layout.sections) {
                for (std::size_t i = 0; i < section.strips.size(); ++i) {
                    if (hand::nearEdgeOf(job.shop, section, i) != hand::NearEdge::FallsFree ||
                        tried >= rounds(2)) {
                        continue;
                    }
                    ++tried;
                    const StripId id = section.strips[i].id;
                    const hand::CutRef high{section.id, id, true};
                    const hand::CutRef low{section.id, id, false};
                    const auto has = [&](const std::vector<hand::CutRef>& cuts,
                                         const hand::CutRef& cut) {
                        return std::find(cuts.begin(), cuts.end(), cut) != cuts.end();
                    };
                    EXPECT_FALSE(has(earlierThan(job, layout.board, high), low));
                    EXPECT_TRUE(has(earlierThan(job, layout.board, low), high));
                    // The far edge alone: its sliver is still on.
                    Document cut = job;
                    Result<ShopEvent> event = cutMade(cut, layout.board, high,
                                                      *hand::markOf(cut, layout.board, high), note);
                    ASSERT_NO_FATAL_FAILURE(take(cut, event));
                    EXPECT_FALSE(has(hand::cutsOn(cut, layout.board), high));
                    EXPECT_TRUE(has(hand::cutsOn(cut, layout.board), low));
                    event = cutMade(cut, layout.board, low, *hand::markOf(cut, layout.board, low),
                                    note);
                    ASSERT_NO_FATAL_FAILURE(take(cut, event));
                    EXPECT_FALSE(has(hand::cutsOn(cut, layout.board), low));
                    // Told of the sliver only: the far edge was ripped before it.
                    Document both = job;
                    event = cutMade(both, layout.board, low, *hand::markOf(both, layout.board, low),
                                    note);
                    ASSERT_NO_FATAL_FAILURE(take(both, event));
                    EXPECT_FALSE(has(hand::cutsOn(both, layout.board), high));
                }
            }
        }
    }
    EXPECT_GT(tried, 0U);
}

TEST(MadeCuts, BothEndsOfABlankInItsStripAreCutsOfTheirOwn) {
    const Document job = planned(samples::kitchenTable());
    const hand::SafeWindows windows(job);
    std::uint64_t tried = 0;
    for (const BoardLayout& layout : job.plan->boards) {
        for (const hand::CutRef& low : hand::cutsOn(job, layout.board)) {
            if (low.kind() != hand::CutKind::Second || low.high || tried >= rounds(2)) {
                continue;
            }
            const auto window = windows.windowOf(layout.board, low);
            hand::CutRef high = low;
            high.high = true;
            const std::optional<Length> wasHigh = hand::markOf(job, layout.board, high);
            if (!window || !wasHigh) {
                continue;
            }
            // A little off its mark, where the tape allows it.
            Document cut = job;
            const Length off = std::min(window->window.to, window->mark + in(1, 8));
            Result<ShopEvent> event = cutMade(cut, layout.board, low, off, note);
            ASSERT_NO_FATAL_FAILURE(take(cut, event));
            ASSERT_TRUE(event.value().lost.empty());
            std::vector<hand::CutRef> left = hand::cutsOn(cut, layout.board);
            EXPECT_EQ(std::count(left.begin(), left.end(), low), 0);
            const auto place = hand::placeOf(*cut.plan, *low.blank);
            ASSERT_TRUE(place);
            EXPECT_TRUE(hand::blankAt(*cut.plan, *place).lowEndCut);
            EXPECT_FALSE(hand::isParted(hand::blankAt(*cut.plan, *place)));
            if (std::count(left.begin(), left.end(), high) == 0) {
                continue; // the strip's own end
            }
            const auto window2 = hand::SafeWindows(cut).windowOf(layout.board, high);
            ASSERT_TRUE(window2);
            event = cutMade(cut, layout.board, high, window2->mark, note);
            ASSERT_NO_FATAL_FAILURE(take(cut, event));
            EXPECT_TRUE(event.value().lost.empty());
            const auto freed = hand::placeOf(*cut.plan, *low.blank);
            ASSERT_TRUE(freed);
            EXPECT_TRUE(hand::isParted(hand::blankAt(*cut.plan, *freed)));
            ++tried;
        }
    }
    EXPECT_GT(tried, 0U);
}

TEST(MadeCuts, WhereTheBlankAtASecondCrosscutIsLostNothingIsLaidOverTheSawCut) {
    Document job = bars_in_a_strip::laid({in(10), in(65)}, {in(1), in(26)});
    const Section section = job.plan->boards[0].sections[0];
    const Strip& strip = section.strips[0];
    ASSERT_NO_FATAL_FAILURE(expectAudited(job));
    const hand::CutRef low{section.id, strip.id, false, strip.blanks[0].id};
    // Neither the 15 in before the cut nor what lies between it and the second bar hold the first.
    const Result<ShopEvent> event = cutMade(job, job.boards[0].id, low, in(15), note);
    ASSERT_NO_FATAL_FAILURE(take(job, event));
    const auto place = hand::placeOf(*job.plan, strip.blanks[1].id);
    ASSERT_TRUE(place);
    const Blank& second = hand::blankAt(*job.plan, *place);
    EXPECT_TRUE(second.lowEndCut);
    EXPECT_FALSE(second.highEndCut);
    EXPECT_EQ(woodOf(second).x0, in(15)); // all that the saw left
    EXPECT_EQ(woodOf(second).x1, in(55));
    EXPECT_EQ(hand::sectionAt(*job.plan, *place).strips[place->strip].blanks.size(), 1U)
        << "laid over the saw cut";
}

TEST(MadeCuts, WhereASecondCrosscutLeavesNoBlankInItsStripNothingIsLaidOverIt) {
    // The bar in the middle of 36 in; cut through at 17 in neither piece holds its 22.
    Document job = bars_in_a_strip::laid({in(10), in(46)}, {in(6)});
    const Section section = job.plan->boards[0].sections[0];
    const Strip& strip = section.strips[0];
    ASSERT_NO_FATAL_FAILURE(expectAudited(job));
    const hand::CutRef low{section.id, strip.id, false, strip.blanks[0].id};
    const Result<ShopEvent> event = cutMade(job, job.boards[0].id, low, in(17), note);
    ASSERT_NO_FATAL_FAILURE(take(job, event));
    EXPECT_EQ(event.value().lost.size(), 1U);
    const Length kerf = job.shop.machines.stripCrosscut.kerf;
    const Rect sawn{in(27) - kerf, in(1), in(27), in(15, 4)}; // on the board
    for (const BoardLayout& layout : job.plan->boards) {
        for (const Section& each : layout.sections) {
            for (const Strip& inIt : each.strips) {
                for (const Blank& laid : inIt.blanks) {
                    const Rect lies = boundingBox(toOuter(each.frame, woodOf(laid)));
                    EXPECT_FALSE(layout.board == job.boards[0].id && lies.overlaps(sawn));
                }
            }
        }
    }
}

TEST(MadeCuts, ARippedBlankWithASizeInAnOldFileIsOffItsStrip) {
    Document job = planned(samples::hallShelf());
    const BlankId id = blanksOf(*job.plan).front();
    const Rect rect = hand::blankAt(*job.plan, *hand::placeOf(*job.plan, id)).rect;
    const Result<ShopEvent> event =
        sizeMeasured(job, id, rect.length() - in(1, 16), rect.width(), note);
    ASSERT_NO_FATAL_FAILURE(take(job, event));
    // Files from before the ends were kept say nothing of them.
    const std::regex ends(R"(\s*"(low|high)EndCut": (true|false),)");
    const std::string text = std::regex_replace(toJson(job), ends, "");
    ASSERT_EQ(text.find("EndCut"), std::string::npos);
    const Result<Document> read = fromJson(text);
    ASSERT_TRUE(read.ok());
    EXPECT_TRUE(
        hand::isParted(hand::blankAt(*read.value().plan, *hand::placeOf(*read.value().plan, id))));
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
            ASSERT_NO_FATAL_FAILURE(takeOfMany(job, event));
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
    expectWritten(job);
}

} // namespace
} // namespace stavewright::midjob
