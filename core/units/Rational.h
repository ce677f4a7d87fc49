#pragma once
// Exact fraction for reading typed numbers: every operation either is exact or says that it
// overflowed.
//
//   const auto half = Rational::of(1, 2);
//   const auto sum = add(*half, Rational::whole(27)); // 55/2

#include <optional>

#include "core/units/Length.h"

namespace stavewright::reading {

struct Rational {
    Int128 numerator = 0;
    Int128 denominator = 1; ///< always above zero; the fraction is in lowest terms

    [[nodiscard]] static constexpr Rational whole(std::int64_t n) { return {n, 1}; }
    /// Nothing when the denominator is zero.
    [[nodiscard]] static std::optional<Rational> of(Int128 numerator, Int128 denominator);

    [[nodiscard]] bool isWhole() const { return denominator == 1; }
    [[nodiscard]] bool isZero() const { return numerator == 0; }
    friend constexpr bool operator==(const Rational& a, const Rational& b) {
        return a.numerator == b.numerator && a.denominator == b.denominator;
    }
};

/// Nothing when the result does not fit.
[[nodiscard]] std::optional<Rational> add(const Rational& a, const Rational& b);
[[nodiscard]] std::optional<Rational> multiply(const Rational& a, const Rational& b);
/// Nothing when the result does not fit or `b` is zero.
[[nodiscard]] std::optional<Rational> divide(const Rational& a, const Rational& b);
[[nodiscard]] Rational negated(const Rational& a);

/// Nearest whole number, halves away from zero; nothing when it does not fit 64 bits.
[[nodiscard]] std::optional<std::int64_t> nearestWhole(const Rational& a);

} // namespace stavewright::reading
