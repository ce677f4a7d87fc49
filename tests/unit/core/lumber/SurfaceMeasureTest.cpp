// Published examples of board feet and surface measure; the source stands beside each.

#include "core/lumber/SurfaceMeasure.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

constexpr Length in(std::int64_t numerator, std::int64_t denominator = 1) {
    return Length::inches(numerator, denominator);
}
constexpr Length feet(std::int64_t feet, std::int64_t inches = 0) {
    return Length::inches(feet * 12 + inches);
}

struct Size {
    const char* name;
    Length thickness, width, length;
    std::int64_t millionths;
    std::int64_t within;
};

class PublishedBoardFeet : public testing::TestWithParam<Size> {};

TEST_P(PublishedBoardFeet, agree) {
    const Size& size = GetParam();
    EXPECT_NEAR(static_cast<double>(
                    boardFeetOfSize(size.thickness, size.width, size.length).inMillionths()),
                static_cast<double>(size.millionths), static_cast<double>(size.within));
}

INSTANTIATE_TEST_SUITE_P(
    Examples, PublishedBoardFeet,
    testing::Values(
        // D1: 1-1/2 x 6 x 96 in is 6 board feet. Woodworking reference, lumber dimensions page.
        Size{"D1", in(3, 2), in(6), in(96), 6'000'000, 0},
        // D2: 5/4 x 6 x 72 in is 540 / 144. Lumber tips page (the 540 is published).
        Size{"D2", in(5, 4), in(6), in(72), 3'750'000, 0},
        // D3: 1 x 6 x 120 in is 5 board feet. Grades-of-hardwood page.
        Size{"D3", in(1), in(6), in(120), 5'000'000, 0},
        // D4: 2 x 6 x 72 in is 6 board feet. Lumber dealer's questions and answers.
        Size{"D4", in(2), in(6), in(72), 6'000'000, 0},
        // D5: 4 x 8 x 148 in is 32.88 as published (cut, not rounded): 32.889.
        Size{"D5", in(4), in(8), in(148), 32'888'889, 0}),
    [](const auto& example) { return example.param.name; });

// D6: 6-7/16 in x 10 ft 9 in is 5: the length is cut to whole feet, the width counts in full.
// Sabastina, grading article, S&W Report vol. 12, 1998.
TEST(SurfaceMeasure, D6DropsTheFractionOfAFoot) {
    EXPECT_EQ(SurfaceMeasureTally().add(feet(10, 9), in(103, 16)), 5);
}

// D7: 7-3/4 in x 8 ft 3 in is 5.17, so 5. Inputs from a forum primer, rule from NHLA Rules 2007.
TEST(SurfaceMeasure, D7KeepsTheFractionOfTheWidth) {
    EXPECT_EQ(SurfaceMeasureTally().add(feet(8, 3), in(31, 4)), 5);
    // The same rule, where cutting the width to whole inches would show: 8.75 x 8 / 12 = 5.83.
    EXPECT_EQ(SurfaceMeasureTally().add(feet(8), in(35, 4)), 6);
}

// D8: 8 in x 8 ft is 5.33, so 5. NHLA Rules 2007, rule 16.
TEST(SurfaceMeasure, D8RoundsToTheNearestFoot) {
    EXPECT_EQ(SurfaceMeasureTally().add(feet(8), in(8)), 5);
}

// D9: 4.5 twice running is 5, then 4: exact halves go up and down in turn.
// Wengert, in "Rounding Numbers when Figuring Board Feet", 2007.
TEST(SurfaceMeasure, D9HalvesGoUpAndDownInTurn) {
    SurfaceMeasureTally tally;
    EXPECT_EQ(tally.add(feet(9), in(6)), 5);
    EXPECT_EQ(tally.add(feet(8), in(8)), 5); // no half: does not count as a turn
    EXPECT_EQ(tally.add(feet(9), in(6)), 4);
    EXPECT_EQ(tally.add(feet(9), in(6)), 5);
}

// D10: 12 in x 12 ft is 12. Grading example of the Wood Handbook.
TEST(SurfaceMeasure, D10WholeBoard) { EXPECT_EQ(SurfaceMeasureTally().add(feet(12), in(12)), 12); }

// D11: an 8/4 board of surface measure 5 is 10 board feet. Arithmetic on the rule that board feet
// are surface measure times thickness in inches (the rule is from memory).
TEST(TalliedBoardFeet, D11ThicknessTimesSurfaceMeasure) {
    EXPECT_EQ(tallied(5, {8}), BoardFeet::whole(10));
    EXPECT_EQ(tallied(5, {5}), BoardFeet::millionths(6'250'000));
}

// Stock under an inch counts as an inch. Griffith, Advanced Projects in Woodwork.
TEST(TalliedBoardFeet, thinStockCountsAsAnInch) {
    EXPECT_EQ(tallied(7, {3}), BoardFeet::whole(7));
    EXPECT_EQ(tallied(7, {4}), BoardFeet::whole(7));
}

} // namespace
} // namespace stavewright
