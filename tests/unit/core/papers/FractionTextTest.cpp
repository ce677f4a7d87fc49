#include "core/papers/FractionText.h"

#include <gtest/gtest.h>

#include "tests/unit/core/papers/PageChecks.h"

namespace stavewright::papers {
namespace {

TextRun plain(std::string text) { return {std::move(text), {}, {}, false}; }
TextRun fraction(std::string n, std::string d, bool afterWhole) {
    return {{}, std::move(n), std::move(d), afterWhole};
}

TEST(FractionText, aWholeNumberAndItsFractionStandTogether) {
    const std::vector<TextRun> expected = {plain("27"), fraction("1", "2", true)};
    EXPECT_EQ(runsOf("27 1/2"), expected);
}

TEST(FractionText, fractionsAreFoundWithinASentence) {
    const std::vector<TextRun> expected = {plain("kerf "), fraction("1", "8", false),
                                           plain(", length 27"), fraction("15", "16", true),
                                           plain(".")};
    EXPECT_EQ(runsOf("kerf 1/8, length 27 15/16."), expected);
}

TEST(FractionText, lumberThicknessDatesAndPathsStayAsTheyAre) {
    for (const char* text : {"8/4", "4/4 oak", "10/4", "2026/11/25", "a/b", "1/2a", "A1/2", "1/3",
                             "3/2", "7/", "/8", "1/128", "1.1/2"}) {
        EXPECT_EQ(runsOf(text), std::vector<TextRun>{plain(text)}) << text;
    }
    EXPECT_TRUE(runsOf("").empty());
}

TEST(FractionText, aFractionIsNarrowerThanItsCharactersSide) {
    const checks::PlainMeasure measure;
    const Length set = measure.widthOf("27 15/16", 14, Weight::Regular);
    EXPECT_LT(set, measure.widthOf("27 15-16", 14, Weight::Regular));
    EXPECT_GT(set, measure.widthOf("27", 14, Weight::Regular));
}

TEST(FractionText, theBoxOfAFractionHoldsNumeratorAndDenominator) {
    const checks::PlainMeasure measure;
    Text text;
    text.at = {50_mm, 50_mm};
    text.utf8 = "1/2";
    text.points = 14;
    const Rect box = boxOf(text, measure);
    // Digits are 0.727 em tall in the bundled type (its cap height).
    const double top = fractionSetting::numeratorRise + fractionSetting::scale * 0.727;
    EXPECT_LE(box.y0, 50_mm - points(14 * top) + 1_mm / 100);
    EXPECT_GE(box.y1, 50_mm + points(14 * fractionSetting::denominatorDrop));
}

TEST(FractionText, inSmallTypeFractionsStayLevelAndFullSize) {
    const std::vector<TextRun> level = {plain("kerf 1/8")};
    EXPECT_EQ(runsOf("kerf 1/8", 8), level);
    EXPECT_EQ(runsOf("kerf 1/8", 10), runsOf("kerf 1/8"));
    // The figures of a built fraction are never smaller than seven points.
    EXPECT_GE(fractionSetting::leastPoints * fractionSetting::scale, 7);
}

TEST(FractionText, turnedTextReadsUpwards) {
    const checks::PlainMeasure measure;
    Text text;
    text.at = {50_mm, 50_mm};
    text.utf8 = "DATUM END";
    text.turnDegrees = 90;
    const Rect box = boxOf(text, measure);
    EXPECT_EQ(box.y1, 50_mm);
    EXPECT_EQ(box.width(), measure.widthOf("DATUM END", 10, Weight::Regular));
    EXPECT_LT(box.x0, 50_mm);
}

} // namespace
} // namespace stavewright::papers
