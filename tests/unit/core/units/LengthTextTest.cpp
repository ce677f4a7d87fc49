// Every way a length is typed, shown and refused. The traps are those met again and again wherever
// fractions of an inch are typed into a program.
#include "core/units/LengthText.h"

#include <clocale>
#include <limits>
#include <locale>
#include <string>
#include <string_view>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace stavewright {
namespace {

using testing::HasSubstr;

constexpr Length inches(std::int64_t numerator, std::int64_t denominator = 1) {
    return Length::inches(numerator, denominator);
}

struct Typed {
    std::string_view text;
    UnitSystem unit;
    Length length;
};

constexpr UnitSystem inch = UnitSystem::Inches;
constexpr UnitSystem metric = UnitSystem::Millimetres;

class Accepted : public testing::TestWithParam<Typed> {};
TEST_P(Accepted, IsReadExactly) {
    const Result<Length> length = parseLength(GetParam().text, GetParam().unit);
    ASSERT_TRUE(length) << GetParam().text << ": " << length.error().message;
    EXPECT_EQ(length.value().inNanometres(), GetParam().length.inNanometres()) << GetParam().text;
}

INSTANTIATE_TEST_SUITE_P(
    AsTheTradeWrites, Accepted,
    testing::Values(
        Typed{"27 1/2", inch, inches(55, 2)}, Typed{"27-1/2", inch, inches(55, 2)},
        Typed{"27½", inch, inches(55, 2)}, Typed{"27 ½", inch, inches(55, 2)},
        Typed{"27-½", inch, inches(55, 2)}, Typed{"27 1/2\"", inch, inches(55, 2)},
        Typed{"27 1/2 in", inch, inches(55, 2)}, Typed{"27 1/2 in.", inch, inches(55, 2)},
        Typed{"27 1/2 inches", metric, inches(55, 2)}, Typed{"27 1/2″", metric, inches(55, 2)},
        Typed{"27 1/2''", metric, inches(55, 2)}, Typed{"27 1⁄2", inch, inches(55, 2)},
        Typed{"2' 3 1/2\"", inch, inches(55, 2)}, Typed{"2' 3 1/2\"", metric, inches(55, 2)},
        Typed{"2'3 1/2\"", inch, inches(55, 2)}, Typed{"2'-3 1/2\"", inch, inches(55, 2)},
        Typed{"2′ 3½″", metric, inches(55, 2)}, Typed{"2' 3 1/2", metric, inches(55, 2)},
        Typed{"2ft3.5in", inch, inches(55, 2)}, Typed{"2 ft 3.5 in", metric, inches(55, 2)},
        Typed{"2 feet", inch, inches(24)}, Typed{"2.5'", inch, inches(30)},
        Typed{"1 ft 0 in", inch, inches(12)}, Typed{"1/2'", inch, inches(6)},
        Typed{"880", inch, inches(880)}, Typed{"880", metric, Length::millimetres(880)},
        Typed{"880 mm", inch, Length::millimetres(880)},
        Typed{"880mm", inch, Length::millimetres(880)},
        Typed{"88cm", inch, Length::millimetres(880)},
        Typed{"0,88 m", inch, Length::millimetres(880)},
        Typed{"0.88 M", metric, Length::millimetres(880)},
        Typed{"\t880 mm\r\n", metric, Length::millimetres(880)},
        Typed{"880\u00A0mm", metric, Length::millimetres(880)}));

INSTANTIATE_TEST_SUITE_P(
    Fractions, Accepted,
    testing::Values(Typed{"1/2", inch, inches(1, 2)},
                    Typed{"1/2 in", inch, inches(1, 2)}, // not 1 / (2 in)
                    Typed{"1/2 in", metric, inches(1, 2)}, Typed{"1/2\"", metric, inches(1, 2)},
                    Typed{"3/2", inch, inches(3, 2)},
                    Typed{"8/4", inch, inches(2)}, // quarters only in thickness fields
                    Typed{"¼", inch, inches(1, 4)}, Typed{"¾", inch, inches(3, 4)},
                    Typed{"⅛", inch, inches(1, 8)}, Typed{"⅜", inch, inches(3, 8)},
                    Typed{"⅝", inch, inches(5, 8)}, Typed{"⅞\"", inch, inches(7, 8)},
                    Typed{"5 63/64", inch, inches(383, 64)}, Typed{"0 1/2", inch, inches(1, 2)},
                    Typed{".5", inch, inches(1, 2)}, Typed{",5", inch, inches(1, 2)},
                    Typed{"27.125", inch, inches(217, 8)}, Typed{"27,5", inch, inches(55, 2)},
                    Typed{"0,125", inch, inches(1, 8)},
                    Typed{"1234,567", metric, Length::micrometres(1'234'567)}));

INSTANTIATE_TEST_SUITE_P(
    ASignBindsToTheWholeNumber, Accepted,
    testing::Values(Typed{"-27 1/2", inch, inches(-55, 2)}, Typed{"−27½", inch, inches(-55, 2)},
                    Typed{"-27-1/2", inch, inches(-55, 2)},
                    Typed{"-2' 3 1/2\"", inch, inches(-55, 2)}, Typed{"+3/4", inch, inches(3, 4)},
                    Typed{"-3/4", inch, inches(-3, 4)}, Typed{"- 3/4", inch, inches(-3, 4)}));

INSTANTIATE_TEST_SUITE_P(
    Arithmetic, Accepted,
    testing::Values(Typed{"=(27 1/2 + 1/8)*2", inch, inches(221, 4)},
                    Typed{"(27 1/2 + 1/8)*2", inch, inches(221, 4)},
                    Typed{"880mm - 2*3.2mm", inch, Length::micrometres(873'600)},
                    Typed{"27 - 1/2", inch, inches(53, 2)}, Typed{"27 − 1/2", inch, inches(53, 2)},
                    Typed{"=27-1/2", inch, inches(55, 2)}, // a tight hyphen joins, here too
                    Typed{"=27-1", inch, inches(26)}, Typed{"=1/2+1/8", inch, inches(5, 8)},
                    Typed{"27 / 2", inch, inches(27, 2)}, Typed{"27 ÷ 2", inch, inches(27, 2)},
                    Typed{"=27½-1/2", inch, inches(27)}, Typed{"3 × 2 1/2", inch, inches(15, 2)},
                    Typed{"=2*-3", inch, inches(-6)}, Typed{"3 - -2", inch, inches(5)},
                    Typed{"=1/2/4", inch, inches(1, 8)}, Typed{"=1/2/4/8", inch, inches(1, 64)},
                    Typed{"=1/(4/8)", inch, inches(2)}, Typed{"=1 / 4/8", inch, inches(2)},
                    Typed{"=(5)/2 1/2", inch, inches(2)}, Typed{"=6/4in", metric, inches(3, 2)},
                    Typed{"2' - 3\"", metric, inches(21)},
                    Typed{"=2+3mm", inch, inches(2) + Length::millimetres(3)},
                    Typed{"=880mm/2mm*1mm", inch, Length::millimetres(440)},
                    Typed{"=2-3*4", inch, inches(-10)}, Typed{"=(1+(2+(3)))", inch, inches(6)},
                    Typed{"1 in - 1 in", metric, Length()}, Typed{"=-(1+2)", inch, inches(-3)}));

INSTANTIATE_TEST_SUITE_P(
    RoundedToTheNanometre, Accepted,
    testing::Values(Typed{"=1in/3", inch, Length::nanometres(8'466'667)},
                    Typed{"=-1in/3", inch, Length::nanometres(-8'466'667)},
                    Typed{"0.0000005 mm", inch, Length::nanometres(1)}, // half, away from zero
                    Typed{"0.0000004 mm", inch, Length()},
                    Typed{"=1in/3*3", inch, inches(1)}, // only the result is rounded
                    Typed{"1/7 in", inch, Length::nanometres(3'628'571)},
                    Typed{"1000 m", inch, Length::millimetres(1'000'000)},
                    Typed{"-1000 m", inch, Length::millimetres(-1'000'000)}));

struct Refused {
    std::string_view text;
    std::string_view reason;
};
class Refusal : public testing::TestWithParam<Refused> {};
TEST_P(Refusal, SaysWhatAndWhy) {
    for (const UnitSystem unit : {inch, metric}) {
        const Result<Length> length = parseLength(GetParam().text, unit);
        ASSERT_FALSE(length) << GetParam().text << " was read as " << length.value().toInches();
        EXPECT_EQ(length.error().code, ErrorCode::BadInput);
        EXPECT_THAT(length.error().message, HasSubstr(std::string(GetParam().reason)));
        EXPECT_EQ(length.error().message.back(), '.') << "one whole sentence";
        EXPECT_EQ(length.error().message.find('\n'), std::string::npos);
    }
}

INSTANTIATE_TEST_SUITE_P(
    NeverGuesses, Refusal,
    testing::Values(
        Refused{"27 -1/2", "“27 1/2” for one number or “27 - 1/2” to subtract"},
        Refused{"27- 1/2", "“27 1/2” for one number or “27 - 1/2” to subtract"},
        Refused{"=27 -1/2", "“27 1/2” for one number or “27 - 1/2” to subtract"},
        Refused{"27 -½", "“27 ½” for one number or “27 - ½” to subtract"},
        Refused{"27-3/2", "“27 - 3/2” to subtract"},
        Refused{"27-1", "begin with “=” or put blanks on both sides"},
        Refused{"27 -1", "begin with “=” or put blanks on both sides"},
        Refused{"1/2+1/8", "begin with “=” or put blanks on both sides"},
        Refused{"(27)", "begin with “=”"}, Refused{"=2'-3\"", "may join inches or subtract"},
        Refused{"27 3/2", "must be between 0 and 1"}, Refused{"27 0/2", "must be between 0 and 1"},
        Refused{"27.5 1/2", "two numbers"}, Refused{"1/2 1/2", "two numbers"},
        Refused{"½½", "two numbers"}, Refused{"27 1", "two numbers"},
        Refused{"27\" 1/2", "follows the unit"}, Refused{"27\" 1/2\"", "follows the unit"}));

INSTANTIATE_TEST_SUITE_P(
    DecimalSignsAndThousands, Refusal,
    testing::Values(Refused{"1,000", "write 1000 or 1.000"}, Refused{"27,125", "27.125"},
                    Refused{"1,000.5", "both “.” and “,”"}, Refused{"1.000,5", "both “.” and “,”"},
                    Refused{"1.5 + 1,5", "both “.” and “,”"},
                    Refused{"1.000.000", "two decimal signs"},
                    Refused{"1,000,000", "two decimal signs"}, Refused{"1 000", "two numbers"},
                    Refused{"1'000", "less than 12"}, Refused{"1_000", "not part of a length"},
                    Refused{"27.", "a digit is missing"}, Refused{"1,000 mm", "thousands group"}));

INSTANTIATE_TEST_SUITE_P(FeetAndInches, Refusal,
                         testing::Values(Refused{"2' 12\"", "less than 12"},
                                         Refused{"2' 3 mm", "only inches"},
                                         Refused{"2.5' 3\"", "whole number"},
                                         Refused{"2' 3' ", "only inches"},
                                         Refused{"2' 3\" 1/2", "two numbers"}));

INSTANTIATE_TEST_SUITE_P(
    Nonsense, Refusal,
    testing::Values(Refused{"", "is missing"}, Refused{" \t ", "is missing"},
                    Refused{"=", "no number"}, Refused{"≈", "no number"},
                    Refused{"-", "missing at its end"}, Refused{"nan", "“nan” is not a unit"},
                    Refused{"inf", "“inf” is not a unit"}, Refused{"-infinity", "is not a unit"},
                    Refused{"1e3", "“e” is not a unit"}, Refused{"0x10", "“x” is not a unit"},
                    Refused{"abc", "the units are in, ft, mm"},
                    Refused{"1 km", "“km” is not a unit"}, Refused{"mm", "missing before “mm”"},
                    Refused{"\"", "missing before"}, Refused{"27 @", "not part of a length"},
                    Refused{"\xFF\xFE", "not part of a length"},
                    Refused{std::string_view("27\0 1/2", 7), "not part of a length"},
                    Refused{"1/0", "zero below the line"}, Refused{"27 1/0", "zero below the line"},
                    Refused{"=1/(2-2)", "divides by zero"}, Refused{"=((1)", "“)” is missing"},
                    Refused{"=(1))", "no “(” before it"}, Refused{"=2(3)", "missing before “(”"},
                    Refused{"=1+", "missing at its end"}, Refused{"=*2", "missing before “*”"},
                    Refused{"=()", "missing before “)”"}, Refused{"==1", "not part of a length"},
                    Refused{"=(1+2)mm", "does not stand behind a number"}));

INSTANTIATE_TEST_SUITE_P(
    DimensionsAndSize, Refusal,
    testing::Values(Refused{"=2in*3in", "is an area"}, Refused{"=880mm/2mm", "not a length"},
                    Refused{"=4/2mm+1mm/(1mm/2mm)*4mm*3", "is an area"},
                    Refused{"=1in/1in+1in", "cannot be added"},
                    Refused{"=3/(2mm)", "cannot be divided by a length"},
                    Refused{"1000.000001 m", "beyond 1 km"}, Refused{"-1000001 mm", "beyond 1 km"},
                    Refused{"999999999999999999", "beyond 1 km"},
                    Refused{"9999999999999999999", "more than 18 digits"},
                    Refused{"0.0000000000000000001", "more than 18 digits"},
                    Refused{"=999999999999999999m*999999999999999999", "too large"},
                    Refused{"=1/999999999999999999/999999999999999999/999999999999999999",
                            "too large"}));

TEST(LengthText, AnEndlessTextIsRefusedQuickly) {
    const std::string text = "=" + std::string(1'000'000, '(');
    const Result<Length> length = parseLength(text, inch);
    ASSERT_FALSE(length);
    EXPECT_THAT(length.error().message, HasSubstr("longer than 200 characters"));
    EXPECT_LT(length.error().message.size(), 400U);
    EXPECT_FALSE(parseLength("=" + std::string(190, '('), inch));
}

TEST(LengthText, ShowsFractionsInLowestTerms) {
    const LengthStyle style{inch, 16, false};
    EXPECT_EQ(formatLength(inches(55, 2), style), "27 1/2");
    EXPECT_EQ(formatLength(inches(-3, 4), style), "-3/4");
    EXPECT_EQ(formatLength(inches(-55, 2), style), "-27 1/2");
    EXPECT_EQ(formatLength(Length(), style), "0");
    EXPECT_EQ(formatLength(inches(27), style), "27");
    EXPECT_EQ(formatLength(inches(27), {inch, 16, true}), "27\"");
    EXPECT_EQ(formatLength(inches(1, 64), {inch, 64, false}), "1/64");
}

TEST(LengthText, ShowsMillimetresInTenthsWhereNeeded) {
    EXPECT_EQ(formatLength(Length::micrometres(698'500), {metric, 16, false}), "698.5");
    EXPECT_EQ(formatLength(Length::millimetres(880), {metric, 16, true}), "880 mm");
    EXPECT_EQ(formatLength(Length::micrometres(-300), {metric, 16, true}), "-0.3 mm");
}

TEST(LengthText, MarksWhatIsRounded) {
    EXPECT_EQ(formatLength(inches(1, 64), {inch, 32, false}), "≈1/32"); // halves up
    EXPECT_EQ(formatLength(inches(1, 64), {inch, 16, false}), "≈0");
    EXPECT_EQ(formatLength(inches(-1, 64), {inch, 16, false}), "≈0") << "no minus before nothing";
    EXPECT_EQ(formatLength(inches(63, 64), {inch, 8, false}), "≈1") << "carries into the whole";
    EXPECT_EQ(formatLength(inches(-127, 64), {inch, 8, true}), "≈-2\"");
    EXPECT_EQ(formatLength(inches(1, 64), {metric, 16, true}), "≈0.4 mm");
    EXPECT_EQ(formatLength(Length::micrometres(999'950), {metric, 16, false}), "≈1000");
}

TEST(LengthText, FollowsTheSmallestFractionAskedFor) {
    const Length length = inches(11, 64);
    EXPECT_EQ(formatLength(length, {inch, 8, false}), "≈1/8");
    EXPECT_EQ(formatLength(length, {inch, 16, false}), "≈3/16");
    EXPECT_EQ(formatLength(length, {inch, 32, false}), "≈3/16");
    EXPECT_EQ(formatLength(length, {inch, 64, false}), "11/64");
    // A denominator that no rule has falls to the next coarser one.
    EXPECT_EQ(formatLength(length, {inch, 10, false}), "≈1/8");
    EXPECT_EQ(formatLength(length, {inch, 0, false}), "≈0");
    EXPECT_EQ(formatLength(length, {inch, 1000, false}), "11/64");
}

TEST(LengthText, PiecesAreForSettingFractions) {
    const LengthPieces mixed = piecesOf(inches(-55, 2), {inch, 16, true});
    EXPECT_TRUE(mixed.negative);
    EXPECT_FALSE(mixed.rounded);
    EXPECT_EQ(mixed.whole, "27");
    EXPECT_EQ(mixed.numerator, "1");
    EXPECT_EQ(mixed.denominator, "2");
    EXPECT_EQ(mixed.unit, "\"");
    const LengthPieces bare = piecesOf(inches(3, 4), {inch, 16, false});
    EXPECT_EQ(bare.whole, "");
    EXPECT_EQ(bare.unit, "");
    const LengthPieces decimal = piecesOf(Length::micrometres(698'500), {metric, 16, true});
    EXPECT_EQ(decimal.whole, "698.5");
    EXPECT_EQ(decimal.numerator, "");
    EXPECT_EQ(decimal.unit, " mm");
}

TEST(LengthText, TheExtremesOfTheTypeCanBeShown) {
    const Length lowest = Length::nanometres(std::numeric_limits<std::int64_t>::min());
    EXPECT_EQ(formatLength(lowest, {metric, 16, false}), "≈-9223372036854.8");
    EXPECT_EQ(formatLength(lowest, {inch, 64, false}).substr(0, 4), "≈-");
}

TEST(Thickness, QuartersAreInchesInBothUnits) {
    for (const UnitSystem unit : {inch, metric}) {
        for (const int quarters : {4, 5, 6, 8, 10, 12, 16}) {
            const auto thickness = parseThickness(std::to_string(quarters) + "/4 ", unit);
            ASSERT_TRUE(thickness);
            EXPECT_EQ(thickness.value().length, inches(quarters, 4));
            EXPECT_TRUE(thickness.value().nominal);
        }
    }
}

TEST(Thickness, MeasuredSizesAreNotNominal) {
    const auto measured = [](std::string_view text, UnitSystem unit) {
        const auto thickness = parseThickness(text, unit);
        EXPECT_TRUE(thickness) << text;
        EXPECT_FALSE(thickness && thickness.value().nominal) << text;
        return thickness ? thickness.value().length : Length();
    };
    EXPECT_EQ(measured("3/4", inch), inches(3, 4));
    EXPECT_EQ(measured("3/4", metric), inches(3, 4)) << "never 0.75 mm";
    EXPECT_EQ(measured("1 7/8", inch), inches(15, 8));
    EXPECT_EQ(measured("8/4\"", metric), inches(2));
    EXPECT_EQ(measured("8/4 mm", metric), Length::millimetres(2));
    EXPECT_EQ(measured("48", metric), Length::millimetres(48));
    EXPECT_EQ(measured("1 1/4", inch), inches(5, 4));
}

TEST(Thickness, IsRefusedLikeALength) {
    EXPECT_FALSE(parseThickness("", inch));
    EXPECT_FALSE(parseThickness("thick", inch));
    EXPECT_FALSE(parseThickness("8/0", inch));
    EXPECT_FALSE(parseThickness("0/4x", inch));
}

void expectPlainNumbers() {
    EXPECT_EQ(formatLength(Length::micrometres(1'698'500), {metric, 16, true}), "1698.5 mm");
    EXPECT_EQ(formatLength(inches(2001, 2), {inch, 16, false}), "1000 1/2");
    EXPECT_EQ(parseLength("1698.5", metric).value(), Length::micrometres(1'698'500));
    EXPECT_EQ(parseLength("698,5", metric).value(), Length::micrometres(698'500));
    EXPECT_FALSE(parseLength("1.698,5", metric));
}

/// Decimal comma and grouping points, as in much of Europe; needs no locale on the machine.
class CommaPunctuation : public std::numpunct<char> {
  protected:
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

TEST(LengthText, ATapeIsReadToItsFractionOrHalfAMillimetre) {
    const LengthStyle sixteenths{UnitSystem::Inches, 16, false};
    EXPECT_EQ(onTape(Length::inches(17, 32), sixteenths), Length::inches(9, 16)) << "halves up";
    EXPECT_EQ(onTape(Length::inches(1, 2), sixteenths), Length::inches(1, 2));
    const LengthStyle halves{UnitSystem::Millimetres, 16, false};
    EXPECT_EQ(onTape(Length::micrometres(755'680), halves), Length::micrometres(755'500));
    EXPECT_EQ(onTape(Length::micrometres(755'750), halves), Length::millimetres(756));
    EXPECT_EQ(onTape(Length::micrometres(-400), halves), Length::micrometres(-500));
}

TEST(LengthText, TheProgramsLocaleChangesNothing) {
    const std::locale before =
        std::locale::global(std::locale(std::locale::classic(), new CommaPunctuation));
    expectPlainNumbers();
    std::locale::global(before);
}

TEST(LengthText, TheMachinesLocaleChangesNothing) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    bool found = false;
    for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "nl_NL.UTF-8"}) {
        found = found || std::setlocale(LC_ALL, name) != nullptr;
    }
    if (!found) {
        GTEST_SKIP() << "this machine has no locale with a decimal comma";
    }
    expectPlainNumbers();
    std::setlocale(LC_ALL, before.c_str());
}

} // namespace
} // namespace stavewright
