// The figures by which plans are compared, on plans written out by hand.

#include "core/planning/Figures.h"

#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace small_job;

Blank blankOf(PartId part, int instance, Rect rect) {
    Blank blank;
    blank.purpose = {part, instance, 0, 0};
    blank.rect = rect;
    return blank;
}

/// One section over the whole of a 96 x 8 in board, with these strips.
Plan planWith(BoardId board, std::vector<Strip> strips) {
    Section section;
    section.along = {in(0), in(96)};
    section.strips = std::move(strips);
    Plan plan;
    plan.boards = {{board, {section}, false}};
    return plan;
}

TEST(SetUps, AWidthOrLengthThatComesBackCountsOnce) {
    const PartId part{1};
    const Plan plan = planWith(
        BoardId{2}, {{{}, {in(0), in(3)}, {blankOf(part, 1, {in(0), in(0), in(24), in(3)})}, {}},
                     {{},
                      {in(25, 8), in(41, 8)}, // 2 in
                      {blankOf(part, 2, {in(0), in(25, 8), in(24), in(41, 8)}),
                       blankOf(part, 3, {in(25), in(25, 8), in(61), in(41, 8)})},
                      {}},
                     {{},
                      {in(42, 8), in(66, 8)}, // 3 in again
                      {blankOf(part, 4, {in(0), in(42, 8), in(24), in(66, 8)})},
                      {}}});
    const SetUps setUps = setUpsOf(plan);
    EXPECT_EQ(setUps.ripWidths, 2);   // 3 in and 2 in
    EXPECT_EQ(setUps.stopLengths, 2); // 24 in and 36 in
    EXPECT_EQ(setUps.roughRipWidths, 0);
    EXPECT_EQ(setUps.total(), 4);
}

TEST(SetUps, ABlankTrimmedToLessThanItsStripTakesOneMore) {
    const Plan plan =
        planWith(BoardId{2}, {{{},
                               {in(0), in(3)},
                               {blankOf(PartId{1}, 1, {in(0), in(0), in(24), in(3)}),
                                blankOf(PartId{1}, 2, {in(25), in(0), in(49), in(2)})},
                               {}}});
    EXPECT_EQ(setUpsOf(plan).ripWidths, 2);
    EXPECT_EQ(setUpsOf(plan).stopLengths, 1);
}

TEST(SetUps, WhatIsCutAlreadyTakesNone) {
    Plan plan = planWith(
        BoardId{2},
        {{{}, {in(0), in(3)}, {blankOf(PartId{1}, 1, {in(0), in(0), in(24), in(3)})}, {}}});
    plan.boards[0].sections[0].strips[0].blanks[0].state = CutState::Cut;
    EXPECT_EQ(setUpsOf(plan).total(), 0);
}

TEST(SetUps, ABlankAsLongAsItsSectionNeedsNoStop) {
    const Plan plan = planWith(
        BoardId{2},
        {{{}, {in(0), in(3)}, {blankOf(PartId{1}, 1, {in(0), in(0), in(96), in(3)})}, {}}});
    EXPECT_EQ(setUpsOf(plan).stopLengths, 0);
}

TEST(SetUps, ASectionRippedBeforeItsFirstFacingSetsAnotherFence) {
    Plan plan = planWith(
        BoardId{2},
        {{{}, {in(0), in(3)}, {blankOf(PartId{1}, 1, {in(0), in(0), in(24), in(3)})}, {}}});
    plan.boards[0].sections[0].facing = FirstFacing::RoughRippedFirst;
    EXPECT_EQ(setUpsOf(plan).roughRipWidths, 1);
    EXPECT_EQ(setUpsOf(plan).ripWidths, 0);
}

struct OneKnot : ::testing::Test {
    void SetUp() override {
        job.boards = {board(job, "1", {4}, in(1))};
        // 1/4 in, sound: allowed in a clean show face.
        job.boards[0].defects = {defect(job, DefectKind::SoundKnot, {in(10), in(3, 2)}, in(1, 4))};
        plan = planWith(job.boards[0].id,
                        {{{},
                          {in(0), in(11, 4)},
                          {blankOf(job.parts[0].id, 1, {in(2), in(0), in(26), in(11, 4)})},
                          {}}});
    }
    Document job = oneBar();
    Plan plan;
};

TEST_F(OneKnot, InAShowFaceIsCountedAndCounts) {
    plan.totals.cost = Money::whole(50);
    const PlanFigures figures = figuresOf(job, plan);
    EXPECT_EQ(figures.knotsOnShow, 1);
    EXPECT_EQ(figures.cost, Money::whole(50));
    EXPECT_EQ(figures.counted, Money::whole(50) + job.shop.prices.knotOnShow);
}

TEST_F(OneKnot, OutsideEveryBlankDoesNot) {
    job.boards[0].defects = {defect(job, DefectKind::SoundKnot, {in(40), in(3, 2)}, in(1, 4))};
    EXPECT_EQ(figuresOf(job, plan).knotsOnShow, 0);
}

TEST_F(OneKnot, ToBeFilledIsOnShowAsWellButIsPaidForAsAFill) {
    for (DefectRule& rule : job.shop.ruleSets[0].rules) {
        rule = {Verdict::AllowedIfFilled, std::nullopt};
    }
    const PlanFigures figures = figuresOf(job, plan);
    EXPECT_EQ(figures.knotsOnShow, 1);
    EXPECT_EQ(figures.counted, figures.cost);
}

TEST_F(OneKnot, AGroupOnTwoBoardsCountsOnceForEachBoardBeyondTheFirst) {
    job.boards.push_back(board(job, "2", {4}, in(1)));
    job.groups = {{job.takeId<GroupId>(), "pair", MatchGroup::Want::OneBoard, {job.parts[0].id}}};
    EXPECT_EQ(figuresOf(job, plan).boardsTooMany, 0);
    plan.boards.push_back(plan.boards[0]);
    plan.boards[1].board = job.boards[1].id;
    const PlanFigures figures = figuresOf(job, plan);
    EXPECT_EQ(figures.boardsTooMany, 1);
    EXPECT_EQ(groupsApart(job, plan), job.shop.prices.groupApart);
    EXPECT_EQ(figures.counted, figures.cost + job.shop.prices.groupApart +
                                   job.shop.prices.knotOnShow * figures.knotsOnShow);
}

} // namespace
} // namespace stavewright
