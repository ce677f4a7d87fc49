#include "core/units/PressureText.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "core/base/PlainText.h"
#include "core/units/Decimal.h"
#include "core/units/Glyph.h"

namespace stavewright {

namespace {

// Exact by definition: a pound (force) is 4.448 221 615 260 5 N, a square inch 645.16 square
// millimetres. So a pound a square inch is this fraction of a hundredth of a newton per square
// millimetre.
constexpr std::int64_t newtonShare = 44'482'216'152'605;
constexpr std::int64_t inchShare = 64'516'000'000'000;

std::string allowed(UnitSystem units) {
    return "it must be from " + formatPressure(leastTypedPsi, units) + " to " +
           formatPressure(mostTypedPsi, units) + ' ' + pressureUnit(units);
}

/// Of the unit behind a number; nothing where it is none of ours.
std::optional<UnitSystem> unitNamed(std::string_view typed, UnitSystem units) {
    const std::string name = lowerCase(trimmed(typed));
    if (name.empty()) {
        return units;
    }
    if (name == "psi") {
        return UnitSystem::Inches;
    }
    if (name == "n/mm²" || name == "n/mm2" || name == "mpa") {
        return UnitSystem::Millimetres;
    }
    return std::nullopt;
}

} // namespace

std::string pressureUnit(UnitSystem units) { return units == UnitSystem::Inches ? "psi" : "N/mm²"; }

std::int64_t hundredthsOfNewton(int psi) {
    return static_cast<std::int64_t>((Int128{psi} * newtonShare + inchShare / 2) / inchShare);
}

std::string formatPressure(int psi, UnitSystem units) {
    if (units == UnitSystem::Inches) {
        return std::to_string(psi);
    }
    const std::int64_t hundredths = hundredthsOfNewton(psi);
    std::string text = std::to_string(hundredths / 100);
    if (const std::int64_t rest = hundredths % 100; rest != 0) {
        text += '.' + std::to_string(100 + rest).substr(1);
        if (text.back() == '0') {
            text.pop_back();
        }
    }
    return text;
}

Result<int> parsePressure(std::string_view text, UnitSystem units) {
    const auto refused = [&](const std::string& reason) {
        return Error{ErrorCode::BadInput,
                     "Cannot read " + reading::inQuotes(text) + " as a pressure: " + reason + '.',
                     {}};
    };
    const std::string_view typed = trimmed(text);
    const std::size_t numberEnds = std::min(typed.find_first_not_of("0123456789.,"), typed.size());
    const std::vector<char32_t> characters = reading::decodeUtf8(typed.substr(0, numberEnds));
    std::size_t at = 0;
    if (!reading::decimalBeginsAt(characters, at)) {
        return refused(allowed(units));
    }
    const Result<reading::Decimal> number = reading::readDecimal(characters, at);
    if (!number) {
        return refused(number.error().message);
    }
    const auto unit = unitNamed(typed.substr(numberEnds), units);
    if (!unit || at != characters.size()) {
        return refused(allowed(units));
    }
    std::optional<reading::Rational> psi = number.value().value;
    if (*unit == UnitSystem::Millimetres) {
        const auto perUnit = reading::Rational::of(Int128{inchShare} * 100, newtonShare);
        psi = multiply(*psi, *perUnit);
    }
    const std::optional<std::int64_t> whole = psi ? nearestWhole(*psi) : std::nullopt;
    if (!whole || *whole < leastTypedPsi || *whole > mostTypedPsi) {
        return refused(allowed(units));
    }
    return static_cast<int>(*whole);
}

} // namespace stavewright
