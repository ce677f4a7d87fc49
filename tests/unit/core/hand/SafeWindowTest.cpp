// The safe window of a cut: anywhere in it the audit finds nothing, a mark of the tape outside what
// is said to be lost is lost.

#include "core/hand/SafeWindow.h"

#include <algorithm>
#include <cstdlib>
#include <random>

#include "core/hand/PlanTree.h"
#include "tests/unit/core/hand/HandSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::hand {
namespace {

using namespace hand_sample;
using small_job::in;

/// One bar of 24 x 2 3/4 in rough, 22 in finished, alone in a section from 10 to 34 in, its strip 1
/// to 3 3/4 in from the edge.
Document oneBarLaid() {
    Document job = small_job::oneBar();
    job.info.inchDenominator = 16;
    job.boards = {small_job::board(job, "1", Quarter{4}, in(1))};
    Plan plan;
    BoardLayout layout;
    layout.board = job.boards[0].id;
    Section section;
    section.id = job.takeId<SectionId>();
    section.along = {in(10), in(34)};
    section.frame.origin = {in(10), in(0)};
    Strip strip;
    strip.id = job.takeId<StripId>();
    strip.across = {in(1), in(15, 4)};
    Blank blank;
    blank.id = job.takeId<BlankId>();
    blank.purpose = {job.parts[0].id, 1, 0, 0};
    blank.rect = {in(0), in(1), in(24), in(15, 4)};
    strip.blanks = {blank};
    section.strips = {strip};
    layout.sections = {section};
    plan.boards = {layout};
    job.plan = plan;
    job.plan->totals = totalsOf(job, *job.plan).value();
    return job;
}

TEST(SafeWindow, OfACrosscutReachesAsFarAsTheAllowance) {
    const Document job = oneBarLaid();
    ASSERT_TRUE(audit(job).passed());
    const SafeWindows windows(job);
    const std::vector<CutWindow> cuts = windows.onBoard(job.boards[0].id);
    ASSERT_EQ(cuts.size(), 4U);
    // The low end: 2 in of allowance above; below, wood and nothing else.
    EXPECT_EQ(cuts[0].mark, in(10));
    EXPECT_EQ(cuts[0].window.to, in(12));
    EXPECT_TRUE(cuts[0].openBelow);
    ASSERT_EQ(cuts[0].lostAbove.size(), 1U);
    EXPECT_EQ(labelOf(job, cuts[0].lostAbove[0]), "X1");
    // The far end the other way round.
    EXPECT_EQ(cuts[1].mark, in(34));
    EXPECT_EQ(cuts[1].window.from, in(32));
    EXPECT_TRUE(cuts[1].openAbove);
    // Rips: 2 3/4 rough, 2 1/2 finished.
    EXPECT_EQ(cuts[2].mark, in(1));
    EXPECT_EQ(cuts[2].window.to, in(5, 4));
    EXPECT_EQ(cuts[3].mark, in(15, 4));
    EXPECT_EQ(cuts[3].window.from, in(7, 2));
    EXPECT_EQ(sentenceOf(job, cuts[1]),
              "anything from 32\" to 37\" still gives every part; below, X1 is lost");
}

TEST(SafeWindow, AKnotInTheWayMakesItNarrower) {
    Document job = oneBarLaid();
    // Between 33 and 35 in: the far end may be cut shorter, but the bar cannot slide up to it.
    job.boards[0].defects = {
        small_job::defect(job, DefectKind::KnotHole, {in(70, 2), in(5, 2)}, in(1, 2))};
    ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
    const SafeWindows windows(job);
    const std::vector<CutWindow> cuts = windows.onBoard(job.boards[0].id);
    // The low end: the finished 22 in have to end before the knot.
    EXPECT_LT(cuts[0].window.to, in(27, 2));
    EXPECT_GE(cuts[0].window.to, in(10));
    EXPECT_FALSE(windows.isSafe(job.boards[0].id, cuts[0].cut, cuts[0].window.to + in(1, 16)));
}

Length tapeStep(const Document& job) {
    return job.info.units == UnitSystem::Inches ? in(1, job.info.inchDenominator)
                                                : Length::millimetres(1);
}

int setsWanted() {
    const char* asked = std::getenv("STAVEWRIGHT_CUT_SETS");
    return asked ? std::atoi(asked) : 40;
}

/// The document with the board as it is after the cut.
Document withBoard(Document job, const BoardLayout& layout) {
    for (BoardLayout& each : job.plan->boards) {
        if (each.board == layout.board) {
            each = layout;
        }
    }
    job.plan->totals = totalsOf(job, *job.plan).value();
    return job;
}

TEST(SafeWindow, AnySetOfCutsInsideTheirWindowsIsClean) {
    std::mt19937_64 random(11);
    int sets = 0;
    int cutsMade = 0;
    int outside = 0;
    const std::vector<Document> jobs = {planned(samples::hallShelf()),
                                        planned(samples::kitchenTable()),
                                        planned(samples::linenChest())};
    while (sets < setsWanted()) {
        const Document& job = jobs[random() % jobs.size()];
        const BoardId board = job.plan->boards[random() % job.plan->boards.size()].board;
        Document begun = job;
        const std::vector<CutRef> cuts = SafeWindows(begun).cutsOn(board);
        for (const CutRef& cut : cuts) {
            const SafeWindows windows(begun);
            const std::optional<CutWindow> window = windows.windowOf(board, cut);
            ASSERT_TRUE(window);
            EXPECT_LE(window->window.from, window->mark);
            EXPECT_GE(window->window.to, window->mark);
            if (!window->openAbove && random() % 4 == 0) {
                ++outside;
                EXPECT_FALSE(windows.isSafe(board, cut, window->window.to + tapeStep(begun)));
                EXPECT_TRUE(!window->lostAbove.empty() || !window->whyAbove.empty());
            }
            const auto sixtyFourths =
                static_cast<std::uint64_t>((window->window.to - window->window.from) / in(1, 64));
            const Length where =
                window->window.from +
                in(1, 64) * static_cast<std::int64_t>(random() % (sixtyFourths + 1));
            const std::optional<Landed> landed = windows.landed(board, cut, where);
            ASSERT_TRUE(landed);
            EXPECT_TRUE(landed->lost.empty())
                << sentenceOf(begun, *window) << ", cut at " << where.toInches();
            begun = withBoard(begun, landed->layout);
            ++cutsMade;
        }
        SCOPED_TRACE(job.info.title + ", board " + findBoard(job, board)->mark + ", set " +
                     std::to_string(sets));
        expectAudited(begun);
        ++sets;
    }
    EXPECT_GT(cutsMade, sets);
    EXPECT_GT(outside, 0);
    RecordProperty("sets", sets);
    RecordProperty("cuts", cutsMade);
}

/// Whether the blank comes out of its strip anywhere at all: every position along, cut to every
/// length down to its finished one, along either edge; by the audit alone.
bool comesOutAnyhow(const Document& job, BoardLayout layout, const Section& section,
                    const Strip& strip, Blank blank) {
    const BoardJudge judge(job);
    const BoardJudge::LeastWood least = judge.leastWoodFor(blank.purpose);
    const Length length = blank.rect.length();
    const Length width = blank.rect.width();
    Section* in64 = nullptr;
    Strip* into = nullptr;
    for (Section& each : layout.sections) {
        for (Strip& other : each.strips) {
            if (each.id == section.id && other.id == strip.id) {
                in64 = &each;
                into = &other;
            }
        }
    }
    const Rect box = boxOnBoard(*in64, {in(0), strip.across.from, in(1), strip.across.to});
    const Length from = in64->along.from - box.x0 - in(1, 2);
    const Length room = in64->along.length() + in(1);
    const Length step = in(1, 16);
    for (const Length wide : {std::min(width, into->across.length()), into->across.length()}) {
        if (wide < least.width) {
            continue;
        }
        for (const Length v : {into->across.from, into->across.to - wide}) {
            for (Length cutTo = least.length; cutTo <= length; cutTo += step) {
                for (Length u = from; u + cutTo <= from + room; u += step) {
                    blank.state = CutState::Cut;
                    blank.actual = Rect{u, v, u + cutTo, v + wide};
                    into->blanks = {blank};
                    if (judge.failures(layout).empty()) {
                        return true;
                    }
                }
            }
        }
    }
    return false;
}

TEST(SafeWindow, WhatIsSaidToBeLostIsLost) {
    const Document job = planned(samples::hallShelf());
    const SafeWindows windows(job);
    int tried = 0;
    for (const BoardLayout& layout : job.plan->boards) {
        for (const CutWindow& window : windows.onBoard(layout.board)) {
            if (window.openAbove || window.lostAbove.empty() || tried >= 6) {
                continue;
            }
            const auto landed =
                windows.landed(layout.board, window.cut, window.window.to + tapeStep(job));
            ASSERT_TRUE(landed);
            for (const Blank& blank : landed->lost) {
                const TreePlace place = *placeOf(*job.plan, blank.id);
                const Section& section = sectionAt(*job.plan, place);
                const Strip& strip = section.strips[place.strip];
                if (strip.blanks.size() > 1) {
                    continue;
                }
                ++tried;
                EXPECT_FALSE(comesOutAnyhow(job, landed->layout, section, strip, blank))
                    << sentenceOf(job, window);
            }
        }
    }
    EXPECT_GT(tried, 0);
}

} // namespace
} // namespace stavewright::hand
