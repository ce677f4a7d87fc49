#include "core/units/LengthText.h"

#include <utility>

#include "core/base/PlainText.h"
#include "core/units/Glyph.h"
#include "core/units/LengthGrammar.h"

namespace stavewright {

namespace {

/// Longer than any formula that is typed for one length; keeps the reader's work and depth small.
constexpr std::size_t longestText = 200;

/// One kilometre: far beyond any board, far below where sums and areas of lengths overflow.
constexpr std::int64_t largestNanometres = 1'000'000 * Length::nanometresPerMillimetre;

constexpr std::string_view anyBlank = " \t\n\r";

Error cannotRead(std::string_view text, const std::string& reason) {
    return {ErrorCode::BadInput,
            "Cannot read " + reading::inQuotes(text) + " as a length: " + reason + ".",
            {}};
}

/// "8/4" -> 8, up to two digits; 0 when the text is anything else.
int quartersIn(std::string_view text) {
    if (text.size() < 3 || text.size() > 4 || !text.ends_with("/4")) {
        return 0;
    }
    int quarters = 0;
    for (const char digit : text.substr(0, text.size() - 2)) {
        if (digit < '0' || digit > '9') {
            return 0;
        }
        quarters = quarters * 10 + (digit - '0');
    }
    return quarters;
}

} // namespace

Result<Length> parseLength(std::string_view text, UnitSystem unit) {
    text = trimmed(text, anyBlank);
    if (text.empty()) {
        return Error{
            ErrorCode::BadInput, "A length is missing; write it like 27 1/2 or 698.5 mm.", {}};
    }
    if (text.size() > longestText) {
        return cannotRead(text, "it is longer than 200 characters");
    }
    const auto tokens = reading::lexLength(text);
    if (!tokens) {
        return cannotRead(text, tokens.error().message);
    }
    const auto exact = reading::readLengthTokens(tokens.value(), unit);
    if (!exact) {
        return cannotRead(text, exact.error().message);
    }
    const auto nanometres = reading::nearestWhole(exact.value());
    if (!nanometres || *nanometres > largestNanometres || *nanometres < -largestNanometres) {
        return cannotRead(text, "it is beyond 1 km (39370 in), the largest length that is allowed");
    }
    return Length::nanometres(*nanometres);
}

Result<Thickness> parseThickness(std::string_view text, UnitSystem unit) {
    // 1/4, 2/4 and 3/4 are measured sizes; lumber is sold from 4/4 up.
    constexpr int thinnestNominal = 4;
    const int quarters = quartersIn(trimmed(text, anyBlank));
    if (quarters > 0) {
        return Thickness{Length::inches(quarters, 4), quarters >= thinnestNominal};
    }
    const Result<Length> length = parseLength(text, unit);
    if (!length) {
        return length.error();
    }
    return Thickness{length.value(), false};
}

} // namespace stavewright
