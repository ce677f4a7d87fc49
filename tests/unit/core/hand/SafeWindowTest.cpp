// The safe window of a cut: anywhere in it the audit finds nothing, a mark of the tape outside what
// is said to be lost is lost.

#include "core/hand/SafeWindow.h"

#include <gmock/gmock.h>

#include "core/planning/PanelWidth.h"
#include "tests/unit/core/hand/BarsInAStrip.h"
#include "tests/unit/core/hand/CutSets.h"
#include "tests/unit/core/hand/HandSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::hand {
namespace {

using namespace hand_sample;
using small_job::in;

/// One bar alone in a section from 10 to 34 in.
Document oneBarLaid() { return bars_in_a_strip::laid({in(10), in(34)}, {in(0)}); }

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

TEST(SafeWindow, ThePanelWhoseWidthNoLongerComesOutIsNamed) {
    const Document job = planned(samples::kitchenTable());
    const std::vector<BlankSpec> specs = blankSpecs(job).value();
    const SafeWindows windows(job);
    int narrow = 0;
    int wide = 0;
    const auto check = [&](BoardId board, const CutWindow& window, const PanelMissed& missed,
                           Length beyond, const std::string& why) {
        const bool isTooWide = missed.by == PanelMissed::By::TooWide;
        const std::string name = labelOf(job, missed.panel);
        EXPECT_EQ(why, "panel " + name + " becomes too " + (isTooWide ? "wide" : "narrow"));
        EXPECT_NE(sentenceOf(job, window).find(why), std::string::npos) << sentenceOf(job, window);
        Plan after = *job.plan;
        for (BoardLayout& layout : after.boards) {
            if (layout.board == board) {
                layout = windows.landed(board, window.cut, beyond)->layout;
            }
        }
        const StavePool& pool = *specOf(specs, missed.panel)->staves;
        const Length net = planning::netWidthOf(after, pool, missed.panel);
        EXPECT_TRUE(isTooWide ? net > pool.netMost : net < pool.netWanted) << name;
        ++(isTooWide ? wide : narrow);
    };
    for (const BoardLayout& layout : job.plan->boards) {
        for (const CutWindow& window : windows.onBoard(layout.board)) {
            if (window.panelBelow) {
                check(layout.board, window, *window.panelBelow, window.beyondBelow,
                      window.whyBelow);
            }
            if (window.panelAbove) {
                check(layout.board, window, *window.panelAbove, window.beyondAbove,
                      window.whyAbove);
            }
        }
    }
    EXPECT_GT(narrow, 0);
    EXPECT_GT(wide, 0);
}

TEST(SafeWindow, IsSaidAsATapeIsRead) {
    const Document job = oneBarLaid();
    CutWindow window;
    window.window = {Length::micrometres(21), in(2)};
    EXPECT_EQ(sentenceOf(job, window), "anything from 0\" to 2\" still gives every part");
    window.window = {in(37, 16), in(37, 16) + Length::micrometres(30)};
    EXPECT_EQ(sentenceOf(job, window), "nothing but 2 5/16\" still gives every part");
}

TEST(SafeWindow, OfASecondCrosscutIsReadAlongTheStrip) {
    // The section reaches 5 in further both ways: the bar is cut out of its strip at 5 and 29 in.
    const Document job = bars_in_a_strip::laid({in(5), in(39)}, {in(0)});
    ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
    const SafeWindows windows(job);
    std::vector<CutWindow> seconds = windows.onBoard(job.boards[0].id);
    std::erase_if(seconds,
                  [](const CutWindow& each) { return each.cut.kind() != CutKind::Second; });
    ASSERT_EQ(seconds.size(), 2U);
    EXPECT_EQ(seconds[0].mark, in(5));
    // 24 in rough, 22 finished; beyond the bar 5 in of the strip are left for it to slide into.
    EXPECT_TRUE(seconds[0].openAbove);
    EXPECT_TRUE(seconds[0].openBelow);
    EXPECT_EQ(seconds[1].mark, in(29));
    EXPECT_EQ(seconds[1].window.from, in(27));
    ASSERT_EQ(seconds[1].lostBelow.size(), 1U);
    EXPECT_EQ(labelOf(job, seconds[1].lostBelow[0]), "X1");
    // Landed 2 in short, the bar is 22 in long and needs no further cut.
    const std::optional<Landed> landed = windows.landed(job.boards[0].id, seconds[1].cut, in(27));
    ASSERT_TRUE(landed);
    const Blank& bar = landed->layout.sections[0].strips[0].blanks[0];
    ASSERT_TRUE(bar.actual);
    EXPECT_EQ(bar.actual->length(), in(22));
    EXPECT_TRUE(bar.highEndCut);
    EXPECT_FALSE(isParted(bar)); // its low end has 5 in of waste still
}

TEST(SafeWindow, WhatLiesBeforeASecondCrosscutIsNoWasteWhereTheBlankComesOutOfIt) {
    // 31 in of the strip lie before the bar, whose far end is the section's.
    Document job = bars_in_a_strip::laid({in(5), in(60)}, {in(26)});
    const Section& section = job.plan->boards[0].sections[0];
    const Blank& planned = section.strips[0].blanks[0];
    ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
    const BoardId board = job.boards[0].id;
    const CutRef low{section.id, section.strips[0].id, false, planned.id};
    const Length kerf = job.shop.machines.stripCrosscut.kerf;
    const auto barAt = [&](const Document& of, Length where) {
        const std::optional<Landed> landed = SafeWindows(of).landed(board, low, where);
        EXPECT_TRUE(landed && landed->lost.empty());
        EXPECT_TRUE(BoardJudge(of).failures(landed->layout).empty());
        return landed->layout.sections[0].strips[0].blanks.at(0);
    };
    // Landed 3 in off, 21 in are left beyond the cut: the bar comes out of the 34 in before it.
    const auto window = SafeWindows(job).windowOf(board, low);
    ASSERT_TRUE(window);
    EXPECT_EQ(window->mark, in(31));
    EXPECT_TRUE(window->openAbove);
    Blank bar = barAt(job, in(34));
    EXPECT_EQ(bar.rect.x1, in(29) - kerf);
    EXPECT_EQ(bar.rect.length(), in(24));
    EXPECT_TRUE(bar.highEndCut);
    EXPECT_FALSE(bar.lowEndCut);
    // A knot keeps it from the cut: its wood reaches to where the saw went all the same.
    job.boards[0].defects = {
        small_job::defect(job, DefectKind::KnotHole, {in(37), in(5, 2)}, in(1, 2))};
    bar = barAt(job, in(34));
    EXPECT_EQ(bar.actual.value_or(Rect()).x1, in(29) - kerf);
    EXPECT_LT(bar.rect.x1, in(28));
    EXPECT_TRUE(bar.highEndCut);
    // Too little on either side.
    job.boards[0].defects = {
        small_job::defect(job, DefectKind::KnotHole, {in(25), in(5, 2)}, in(1, 2))};
    const auto closed = SafeWindows(job).windowOf(board, low);
    ASSERT_TRUE(closed);
    EXPECT_EQ(closed->window.to, in(33));
    EXPECT_EQ(closed->lostAbove.size(), 1U);
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

/// The bar is cut already, its wood `from` to `to` along its section; a knot hole of 1/4 in stands
/// with its middle at `knot`. The finished 22 in lie 1 in from an end, or in the middle.
bool holdsWith(Length from, Length to, Length knot) {
    Document job = oneBarLaid();
    job.boards[0].defects = {
        small_job::defect(job, DefectKind::KnotHole, {in(10) + knot, in(5, 2)}, in(1, 4))};
    Section& section = job.plan->boards[0].sections[0];
    section.state = CutState::Cut;
    Blank& bar = section.strips[0].blanks[0];
    bar.state = CutState::Ripped;
    bar.actual = Rect{from, in(1), to, in(15, 4)};
    job.plan->totals = totalsOf(job, *job.plan).value();
    return audit(job).passed();
}

TEST(SafeWindow, ShortWoodHoldsItsPartFromEitherEndAndWithinItself) {
    // 3/4 in short: from 1 to 23 in, from 1/4 to 22 1/4 in, or from 5/8 to 22 5/8 in.
    EXPECT_TRUE(holdsWith(in(0), in(93, 4), in(1, 2)));
    EXPECT_TRUE(holdsWith(in(0), in(93, 4), in(91, 4)));
    EXPECT_FALSE(holdsWith(in(0), in(93, 4), in(12)));
    // 1 1/2 in short: no whole allowance at either end is left, so the middle alone, from 1/4 in.
    EXPECT_TRUE(holdsWith(in(0), in(45, 2), in(-3)));
    EXPECT_FALSE(holdsWith(in(0), in(45, 2), in(1, 2)));
    EXPECT_FALSE(holdsWith(in(0), in(45, 2), in(22)));
}

TEST(SafeWindow, AnySetOfCutsInsideTheirWindowsIsClean) {
    const cut_sets::Counted counted =
        cut_sets::cutAtRandom({planned(samples::hallShelf()), planned(samples::kitchenTable())},
                              {.sets = 5, .judged = 2});
    EXPECT_EQ(counted.losses, 0);
    EXPECT_EQ(counted.unclean, 0);
    EXPECT_EQ(counted.harmless, 0);
    EXPECT_EQ(counted.comeOut, 0);
    EXPECT_THAT(counted.troubles, testing::IsEmpty());
    EXPECT_GT(counted.cuts, counted.sets);
    EXPECT_GT(counted.outside, 0);
    EXPECT_GT(counted.judged, 0);
}

} // namespace
} // namespace stavewright::hand
