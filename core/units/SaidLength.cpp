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

std::string saidBeside(Length length, Length other, const LengthStyle& style) {
    const std::string text = saidLength(length, style);
    if (length == other || text != saidLength(other, style)) {
        return text;
    }
    const std::string fine = nearestText(length, said(style, finestFraction));
    return fine == nearestText(other, said(style, finestFraction)) ? "about " + text : fine;
}

} // namespace stavewright
