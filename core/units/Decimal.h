#pragma once
// A typed decimal without sign or unit: digits with at most one '.' or ','. Never guesses: what
// could be a thousands group is refused.
//
//   std::size_t at = 0;
//   const Result<Decimal> read = readDecimal(decodeUtf8("0,88 m"), at); // 22/25, at == 4

#include <cstddef>
#include <vector>

#include "core/base/Result.h"
#include "core/units/Rational.h"

namespace stavewright::reading {

struct Decimal {
    Rational value;
    std::string text;       ///< as typed
    char32_t separator = 0; ///< '.' or ',' or none
    std::size_t wholeDigits = 0;
};

/// True when a decimal begins at `at`: a digit, or a separator with a digit behind it.
[[nodiscard]] bool decimalBeginsAt(const std::vector<char32_t>& characters, std::size_t at);

/// Reads the decimal that begins at `at` and moves `at` behind it. The error's message is the
/// reason only
/// ("... may be a thousands group ..."), to be put behind the caller's "Cannot read ...: ".
Result<Decimal> readDecimal(const std::vector<char32_t>& characters, std::size_t& at);

} // namespace stavewright::reading
