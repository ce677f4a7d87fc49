#include "core/papers/Flow.h"

#include <gtest/gtest.h>

#include "tests/unit/core/papers/PageChecks.h"

namespace stavewright::papers {
namespace {

FlowRow rowOf(Length height, bool keep = false, bool beginsStep = false) {
    return {height, keep, {}, beginsStep};
}

FlowRows rowsOf(std::size_t count, Length height) { return FlowRows(count, rowOf(height)); }

const std::vector<Rect> twoColumns = {{{}, {}, 50_mm, 100_mm}, {60_mm, {}, 110_mm, 100_mm}};

TEST(Flow, rowsRunDownAColumnAndOnIntoTheNext) {
    const std::vector<FlowSpot> spots = spotsIn(rowsOf(12, 10_mm), 0, twoColumns);
    ASSERT_EQ(spots.size(), 12U);
    EXPECT_EQ(spots[9].column, 0U);
    EXPECT_EQ(spots[9].y, 90_mm);
    EXPECT_EQ(spots[10].column, 1U);
    EXPECT_EQ(spots[10].y, Length());
}

TEST(Flow, whatDoesNotFitIsLeftForTheNextPage) {
    EXPECT_EQ(spotsIn(rowsOf(25, 10_mm), 0, twoColumns).size(), 20U);
    EXPECT_EQ(spotsIn(rowsOf(25, 10_mm), 20, twoColumns).size(), 5U);
}

TEST(Flow, aRowTallerThanAColumnStandsAllTheSame) {
    EXPECT_EQ(spotsIn({rowOf(300_mm)}, 0, twoColumns).size(), 1U);
}

TEST(Flow, aHeadingMovesOnWithItsFirstRow) {
    FlowRows rows = rowsOf(9, 10_mm);
    rows.push_back(rowOf(10_mm, true));
    rows.push_back(rowOf(10_mm));
    const std::vector<FlowSpot> spots = spotsIn(rows, 0, twoColumns);
    ASSERT_EQ(spots.size(), 11U);
    EXPECT_EQ(spots[9].column, 1U);
    EXPECT_EQ(spots[10].column, 1U);
}

TEST(Flow, aTablesHeadStandsAgainOverItsRowsInTheNextColumn) {
    FlowRows rows = rowsOf(12, 10_mm);
    for (FlowRow& row : rows) {
        row.runningHead = std::make_shared<const FlowRow>(rowOf(5_mm));
    }
    const std::vector<FlowSpot> spots = spotsIn(rows, 0, twoColumns);
    ASSERT_EQ(spots.size(), 12U);
    EXPECT_TRUE(spots[0].withHead);
    EXPECT_FALSE(spots[1].withHead);
    EXPECT_EQ(spots[9].column, 1U);
    EXPECT_TRUE(spots[9].withHead);
    EXPECT_EQ(spots[9].y, 5_mm);
    EXPECT_EQ(spots[10].y, 15_mm);
}

TEST(Flow, balancedColumnsHoldTheSameRowsInLessHeight) {
    const FlowRows rows = rowsOf(6, 10_mm);
    const std::vector<Rect> columns = balanced(rows, 0, twoColumns);
    EXPECT_EQ(columns.front().y1, 30_mm);
    const std::vector<FlowSpot> spots = spotsIn(rows, 0, columns);
    ASSERT_EQ(spots.size(), 6U);
    EXPECT_EQ(spots[3].column, 1U);
}

TEST(Flow, whatDoesNotFitIsNotBalanced) {
    EXPECT_EQ(balanced(rowsOf(25, 10_mm), 0, twoColumns).front().y1, 100_mm);
}

TEST(Flow, twoPagesAreTurnedAtAStepNearTheMiddle) {
    FlowRows rows = rowsOf(22, 10_mm); // two too many for a page
    for (const std::size_t step : {0U, 5U, 12U, 19U}) {
        rows[step].beginsStep = true;
    }
    EXPECT_EQ(rowsForFirstPage(rows, twoColumns, twoColumns), 12U);
}

TEST(Flow, withoutAStepThePageIsFilled) {
    EXPECT_EQ(rowsForFirstPage(rowsOf(22, 10_mm), twoColumns, twoColumns), 20U);
}

TEST(Flow, theSecondPageMustHoldTheRest) {
    FlowRows rows = rowsOf(36, 10_mm);
    for (const std::size_t step : {0U, 10U, 18U}) {
        rows[step].beginsStep = true;
    }
    EXPECT_EQ(rowsForFirstPage(rows, twoColumns, twoColumns), 18U);
    rows[18].beginsStep = false; // after ten rows 26 are left: six too many for a page
    EXPECT_EQ(rowsForFirstPage(rows, twoColumns, twoColumns), 20U);
}

} // namespace
} // namespace stavewright::papers
