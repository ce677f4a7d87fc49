#include "core/units/SaidLength.h"

#include <algorithm>

namespace stavewright {

namespace {

constexpr int finestFraction = 64; // of a rule
constexpr Length aSixtyFourth = Length::inches(1, finestFraction);

/// Exact decimal millimetres: 1 nm is "0.000001 mm".
std::string exactMillimetres(Length value) {
    const std::int64_t nanometres = abs(value).inNanometres();
    std::string decimals = std::to_string(nanometres % Length::nanometresPerMillimetre);
    decimals.insert(0, 6 - decimals.size(), '0');
    while (!decimals.empty() && decimals.back() == '0') {
        decimals.pop_back();
    }
    std::string text = value < Length() ? "-" : "";
    text += std::to_string(nanometres / Length::nanometresPerMillimetre);
    if (!decimals.empty()) {
        text += '.' + decimals;
    }
    return text + " mm";
}

/// The nearest value with so many decimals, without zeros at their end: "25.47 mm", "25.998\"".
std::string decimalText(Length length, UnitSystem units, int decimals) {
    const bool inches = units == UnitSystem::Inches;
    const std::int64_t one = inches ? Length::nanometresPerInch : Length::nanometresPerMillimetre;
    std::int64_t scale = 1;
    for (int i = 0; i < decimals; ++i) {
        scale *= 10;
    }
    const std::int64_t nanometres = abs(length).inNanometres();
    const std::int64_t whole = nanometres / one;
    const std::int64_t part = (nanometres % one * scale + one / 2) / one; // up to the scale itself
    std::string digits = std::to_string(part % scale);
    digits.insert(0, static_cast<std::size_t>(decimals) - digits.size(), '0');
    while (!digits.empty() && digits.back() == '0') {
        digits.pop_back();
    }
    std::string text = length < Length() ? "-" : "";
    text += std::to_string(whole + part / scale);
    text += (digits.empty() ? "" : "." + digits) + (inches ? "\"" : " mm");
    return text;
}

LengthStyle said(const LengthStyle& style, int denominator) {
    return {style.units, denominator, true};
}

/// Half of this and more rounds up to something that can be read.
Length leastShown(const LengthStyle& style) {
    return style.units == UnitSystem::Inches
               ? Length::nanometres(Length::nanometresPerInch / std::max(1, style.denominator))
               : Length::micrometres(100);
}

} // namespace

std::string saidLength(Length length, const LengthStyle& style) {
    const bool inches = style.units == UnitSystem::Inches;
    if (inches && abs(length) < Length::inches(1) && length % aSixtyFourth == Length()) {
        return nearestText(length, said(style, finestFraction));
    }
    if (length != Length() && abs(length) < leastShown(style)) {
        return exactMillimetres(length);
    }
    return nearestText(length, said(style, style.denominator));
}

std::string saidReading(Length reading, const LengthStyle& style) {
    return nearestText(onTape(reading, style), said(style, style.denominator));
}

std::string saidBeside(Length length, Length other, const LengthStyle& style) {
    std::string text = saidLength(length, style);
    if (length == other || text != saidLength(other, style)) {
        return text;
    }
    if (style.units == UnitSystem::Inches) {
        const LengthStyle fine = said(style, finestFraction);
        if (nearestText(length, fine) != nearestText(other, fine)) {
            return nearestText(length, fine);
        }
    }
    const int coarsest = style.units == UnitSystem::Inches ? 3 : 2;
    for (const int decimals : {coarsest, coarsest + 1}) { // what a caliper or micrometer shows
        std::string fine = decimalText(length, style.units, decimals);
        if (fine != decimalText(other, style.units, decimals)) {
            return fine;
        }
    }
    return "about " + text;
}

} // namespace stavewright
