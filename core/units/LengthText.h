#pragma once
// Lengths as the trade types and reads them. Both ways are free of the process's locale.
//
//   parseLength("27-1/2", UnitSystem::Inches)   -> 27.5 in
//   formatLength(length, {UnitSystem::Inches, 16}) -> "27 1/2"

#include <string>
#include <string_view>

#include "core/base/Result.h"
#include "core/units/Length.h"

namespace stavewright {

enum class UnitSystem { Inches, Millimetres };

/// How lengths are shown: fractions of an inch down to 1/denominator (8, 16, 32, 64), or
/// millimetres in tenths where they are needed.
struct LengthStyle {
    UnitSystem units = UnitSystem::Inches;
    int denominator = 16;
    bool withUnit = false; ///< append the inch mark or " mm"
    friend bool operator==(const LengthStyle&, const LengthStyle&) = default;
};

/// A length split for setting fractions as fractions: "27" "1" "2", sign and whole may be empty.
struct LengthPieces {
    bool negative = false;
    bool rounded = false; ///< the exact value differs from what is shown; show a "≈" before it
    std::string whole;    ///< "27", "698.5"; empty when the value is a bare fraction
    std::string numerator;
    std::string denominator;
    std::string unit; ///< "", "\"" or " mm"
};
[[nodiscard]] LengthPieces piecesOf(Length length, const LengthStyle& style);

/// "27 1/2", "-3/4", "0", "698.5"; prefixed with "≈" when rounded. parseLength reads it back (the
/// "≈" too).
[[nodiscard]] std::string formatLength(Length length, const LengthStyle& style);

/// What a tape can be read to: the style's fraction of an inch, or half a millimetre.
[[nodiscard]] Length onTape(Length length, const LengthStyle& style);

/// As formatLength, without the "≈": where it is plain that figures are read off a tape.
[[nodiscard]] std::string nearestText(Length length, const LengthStyle& style);

/// A size that a fence or a stop is set to, as nearestText; to the 64th where it stands on one, so
/// that three strips of 3 15/32 are not cut as three of 3 1/2.
[[nodiscard]] std::string settingText(Length length, const LengthStyle& style);
/// The style in which it writes the length.
[[nodiscard]] LengthStyle settingStyle(Length length, const LengthStyle& style);

/// Reads `27 1/2`, `27-1/2`, `27½`, `27 1/2"`, `2' 3 1/2"`, `2ft3.5in`, `880`, `880 mm`, `88cm`,
/// `0,88 m`, and sums after "=": `=(27 1/2 + 1/8)*2`, `880mm - 2*3.2mm`. A number without a unit is
/// in `unit`. Integer + space or tight hyphen + proper fraction is one number; a hyphen with spaces
/// on both sides is minus; `27 -1/2` is refused with both readings. A text with both '.' and ',' or
/// a possible thousands group (`1,000`) is refused; a '.' is always the decimal sign. Worked out
/// exactly, then rounded to the nearest nanometre; at most 1 km either way. Errors are one sentence
/// naming what was read and what is allowed.
Result<Length> parseLength(std::string_view text, UnitSystem unit);

/// Thickness fields: `4/4 5/4 8/4 ...` are quarters of an inch whatever the unit; all else as
/// parseLength.
struct Thickness {
    Length length;
    bool nominal = false; ///< typed as quarters
};
Result<Thickness> parseThickness(std::string_view text, UnitSystem unit);

} // namespace stavewright
