// The formatter half of LengthText.h: whole numbers only, so that no locale and no rounding of
// doubles can touch what is shown.

#include <algorithm>
#include <bit>

#include "core/units/LengthText.h"

namespace stavewright {

namespace {

/// The size in whole ticks, halves up, and whether that is exact.
struct Ticks {
    std::int64_t count = 0;
    bool exact = true;
};

Ticks ticksOf(Int128 nanometres, std::int64_t perTick) {
    const Int128 count = (nanometres + perTick / 2) / perTick;
    return {static_cast<std::int64_t>(count), count * perTick == nanometres};
}

/// Denominators that a rule has: 1, 2, 4 ... 64. Anything else falls to the next coarser one.
std::int64_t ruleDenominator(int wanted) {
    return std::bit_floor(static_cast<unsigned>(std::clamp(wanted, 1, 64)));
}

void fillInches(LengthPieces& pieces, Int128 size, int wantedDenominator) {
    std::int64_t denominator = ruleDenominator(wantedDenominator);
    const Ticks ticks = ticksOf(size, Length::nanometresPerInch / denominator);
    pieces.rounded = !ticks.exact;
    pieces.negative = pieces.negative && ticks.count != 0;
    const std::int64_t whole = ticks.count / denominator;
    std::int64_t numerator = ticks.count % denominator;
    if (whole != 0 || numerator == 0) {
        pieces.whole = std::to_string(whole);
    }
    if (numerator != 0) {
        while (numerator % 2 == 0) {
            numerator /= 2;
            denominator /= 2;
        }
        pieces.numerator = std::to_string(numerator);
        pieces.denominator = std::to_string(denominator);
    }
}

void fillMillimetres(LengthPieces& pieces, Int128 size) {
    const Ticks tenths = ticksOf(size, Length::nanometresPerMillimetre / 10);
    pieces.rounded = !tenths.exact;
    pieces.negative = pieces.negative && tenths.count != 0;
    pieces.whole = std::to_string(tenths.count / 10);
    if (tenths.count % 10 != 0) {
        pieces.whole.append(1, '.').append(std::to_string(tenths.count % 10));
    }
}

} // namespace

LengthPieces piecesOf(Length length, const LengthStyle& style) {
    LengthPieces pieces;
    const Int128 value = length.inNanometres();
    pieces.negative = value < 0;
    const Int128 size = value < 0 ? -value : value;
    if (style.units == UnitSystem::Inches) {
        fillInches(pieces, size, style.denominator);
        pieces.unit = std::string(style.withUnit ? "\"" : "");
    } else {
        fillMillimetres(pieces, size);
        pieces.unit = std::string(style.withUnit ? " mm" : "");
    }
    return pieces;
}

Length onTape(Length length, const LengthStyle& style) {
    const Length step = style.units == UnitSystem::Inches
                            ? Length::inches(1, ruleDenominator(style.denominator))
                            : Length::micrometres(500);
    const Length half = length < Length() ? -step / 2 : step / 2;
    return (length + half) / step * step;
}

std::string nearestText(Length length, const LengthStyle& style) {
    const LengthPieces pieces = piecesOf(length, style);
    std::string text = pieces.negative ? "-" : "";
    text += pieces.whole;
    if (!pieces.numerator.empty()) {
        text += pieces.whole.empty() ? "" : " ";
        text += pieces.numerator + "/" + pieces.denominator;
    }
    return text + pieces.unit;
}

LengthStyle settingStyle(Length length, const LengthStyle& style) {
    constexpr int finest = 64; // that a rule shows
    LengthStyle set = style;
    if (style.units == UnitSystem::Inches && length % Length::inches(1, finest) == Length()) {
        set.denominator = finest;
    }
    return set;
}

std::string settingText(Length length, const LengthStyle& style) {
    return nearestText(length, settingStyle(length, style));
}

std::string formatLength(Length length, const LengthStyle& style) {
    return (piecesOf(length, style).rounded ? "≈" : "") + nearestText(length, style);
}

} // namespace stavewright
