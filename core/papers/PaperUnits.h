#pragma once
// Lengths on paper as they are written in layout code: 12_mm, 0.35_mm, points(14).

#include "core/units/Length.h"

namespace stavewright::papers {

inline namespace paperLiterals {
constexpr Length operator""_mm(unsigned long long value) {
    return Length::millimetres(static_cast<std::int64_t>(value));
}
/// Rounded to the micrometre.
constexpr Length operator""_mm(long double value) {
    return Length::micrometres(static_cast<std::int64_t>(value * 1000.0L + 0.5L));
}
} // namespace paperLiterals

/// A share of a length, rounded to the nanometre; for type sizes and drawing only.
[[nodiscard]] constexpr Length scaled(Length length, double factor) {
    const double value = static_cast<double>(length.inNanometres()) * factor;
    return Length::nanometres(static_cast<std::int64_t>(value < 0 ? value - 0.5 : value + 0.5));
}

/// Typographic points (1/72 in).
[[nodiscard]] constexpr Length points(double count) {
    return scaled(Length::inches(1), count / 72.0);
}

[[nodiscard]] constexpr Length larger(Length a, Length b) { return a < b ? b : a; }
[[nodiscard]] constexpr Length smaller(Length a, Length b) { return a < b ? a : b; }

} // namespace stavewright::papers
