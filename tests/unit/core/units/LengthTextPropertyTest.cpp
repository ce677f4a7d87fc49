// What is shown can be typed again: parse(format(x)) == x at the shown precision, for every unit,
// denominator and step.
#include "core/units/LengthText.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace stavewright {
namespace {

constexpr std::int64_t kilometre = 1'000'000 * Length::nanometresPerMillimetre;

LengthStyle anyStyle() {
    return {*rc::gen::element(UnitSystem::Inches, UnitSystem::Millimetres),
            *rc::gen::element(8, 16, 32, 64), *rc::gen::arbitrary<bool>()};
}

Length stepOf(const LengthStyle& style) {
    return style.units == UnitSystem::Inches ? Length::inches(1, style.denominator)
                                             : Length::micrometres(100);
}

UnitSystem otherThan(UnitSystem unit) {
    return unit == UnitSystem::Inches ? UnitSystem::Millimetres : UnitSystem::Inches;
}

RC_GTEST_PROP(LengthTextProperty, WholeStepsReadBackExactly, ()) {
    const LengthStyle style = anyStyle();
    const Length step = stepOf(style);
    const std::int64_t most = kilometre / step.inNanometres();
    const Length length = step * *rc::gen::inRange<std::int64_t>(-most, most + 1);
    const std::string text = formatLength(length, style);
    RC_ASSERT(text.find("≈") == std::string::npos);
    const Result<Length> read = parseLength(text, style.units);
    RC_ASSERT(read.ok());
    RC_ASSERT(read.value() == length);
    // With its unit the text means the same in any field.
    if (style.withUnit) {
        RC_ASSERT(parseLength(text, otherThan(style.units)).value() == length);
    }
}

RC_GTEST_PROP(LengthTextProperty, AnyLengthReadsBackAsShown, ()) {
    const LengthStyle style = anyStyle();
    const Length step = stepOf(style);
    // One step inside the limit, so that rounding up stays allowed.
    const std::int64_t most = kilometre - step.inNanometres();
    const Length length = Length::nanometres(*rc::gen::inRange<std::int64_t>(-most, most + 1));
    const std::string text = formatLength(length, style);
    const Result<Length> read = parseLength(text, style.units);
    RC_ASSERT(read.ok());
    RC_ASSERT(abs(read.value() - length) * 2 <= step);
    RC_ASSERT((text.find("≈") != std::string::npos) == (read.value() != length));
    // Showing what was read changes nothing more: a field left and entered again does not drift.
    const std::string again = formatLength(read.value(), style);
    RC_ASSERT(parseLength(again, style.units).value() == read.value());
}

RC_GTEST_PROP(LengthTextProperty, EveryStepOfAFieldCanBeReadAgain, ()) {
    const LengthStyle style = anyStyle();
    Length length =
        Length::nanometres(*rc::gen::inRange<std::int64_t>(-2'000'000'000, 2'000'000'000));
    for (int i = 0; i < 20; ++i) {
        length += stepOf(style);
        RC_ASSERT(parseLength(formatLength(length, style), style.units).ok());
    }
}

RC_GTEST_PROP(LengthTextProperty, AllWritingsOfAMixedNumberAgree, ()) {
    const auto feet = *rc::gen::inRange<std::int64_t>(0, 100);
    const auto inches = *rc::gen::inRange<std::int64_t>(0, 12);
    const auto denominator = *rc::gen::element<std::int64_t>(2, 4, 8, 16, 32, 64);
    const auto numerator = *rc::gen::inRange<std::int64_t>(1, denominator);
    const Length expected =
        Length::inches(feet * 12 + inches) + Length::inches(numerator, denominator);
    const std::string fraction = std::to_string(numerator) + "/" + std::to_string(denominator);
    const std::string whole = std::to_string(feet * 12 + inches);
    std::string inFeet = std::to_string(feet);
    inFeet.append("' ").append(std::to_string(inches)).append(" ").append(fraction).append("\"");
    for (const std::string& text :
         {whole + " " + fraction, whole + "-" + fraction, whole + " + " + fraction, inFeet}) {
        RC_ASSERT(parseLength(text, UnitSystem::Inches).value() == expected);
    }
    const Length difference =
        Length::inches(feet * 12 + inches) - Length::inches(numerator, denominator);
    RC_ASSERT(parseLength(whole + " - " + fraction, UnitSystem::Inches).value() == difference);
    RC_ASSERT(!parseLength(whole + " -" + fraction, UnitSystem::Inches).ok());
}

RC_GTEST_PROP(LengthTextProperty, NothingTypedBreaksTheReader, ()) {
    static const std::vector<std::string> snippets = {"1",    "27",  "0",  "999999999999999999",
                                                      "1/2",  "½",   "/",  "-",
                                                      " ",    " - ", "+",  "*",
                                                      "(",    ")",   "=",  "in",
                                                      "mm",   "m",   "'",  "\"",
                                                      ",",    ".",   "≈",  "ft",
                                                      "\xE2", "e",   "nan"};
    const auto picks = *rc::gen::container<std::vector<std::size_t>>(
        rc::gen::inRange<std::size_t>(0, snippets.size()));
    std::string text;
    for (const std::size_t pick : picks) {
        text += snippets[pick];
    }
    const Result<Length> read = parseLength(text, UnitSystem::Inches);
    if (read.ok()) {
        RC_ASSERT(abs(read.value()) <= Length::nanometres(kilometre));
    } else {
        RC_ASSERT(!read.error().message.empty());
    }
    (void)parseThickness(text, UnitSystem::Millimetres);
}

} // namespace
} // namespace stavewright
