#include "core/units/Rational.h"

#include <limits>

namespace stavewright::reading {

namespace {

Int128 magnitude(Int128 a) { return a < 0 ? -a : a; }

Int128 greatestCommonDivisor(Int128 a, Int128 b) {
    a = magnitude(a);
    b = magnitude(b);
    while (b != 0) {
        const Int128 rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

std::optional<Int128> product(Int128 a, Int128 b) {
    Int128 result = 0;
    if (__builtin_mul_overflow(a, b, &result)) {
        return std::nullopt;
    }
    return result;
}

} // namespace

std::optional<Rational> Rational::of(Int128 numerator, Int128 denominator) {
    // The most negative value has no counterpart, so it is left out altogether.
    constexpr Int128 largest = ~(static_cast<Int128>(1) << 127);
    if (denominator == 0 || numerator < -largest || denominator < -largest) {
        return std::nullopt;
    }
    if (denominator < 0) {
        numerator = -numerator;
        denominator = -denominator;
    }
    const Int128 common = greatestCommonDivisor(numerator, denominator);
    return Rational{numerator / common, denominator / common};
}

std::optional<Rational> add(const Rational& a, const Rational& b) {
    // Over the least common denominator, so that sums of like fractions stay small.
    const Int128 common = greatestCommonDivisor(a.denominator, b.denominator);
    const auto left = product(a.numerator, b.denominator / common);
    const auto right = product(b.numerator, a.denominator / common);
    const auto denominator = product(a.denominator, b.denominator / common);
    Int128 sum = 0;
    if (!left || !right || !denominator || __builtin_add_overflow(*left, *right, &sum)) {
        return std::nullopt;
    }
    return Rational::of(sum, *denominator);
}

std::optional<Rational> multiply(const Rational& a, const Rational& b) {
    // Cancelled crosswise first, so that only true overflow is reported.
    const auto left = Rational::of(a.numerator, b.denominator);
    const auto right = Rational::of(b.numerator, a.denominator);
    if (!left || !right) {
        return std::nullopt;
    }
    const auto numerator = product(left->numerator, right->numerator);
    const auto denominator = product(left->denominator, right->denominator);
    if (!numerator || !denominator) {
        return std::nullopt;
    }
    return Rational::of(*numerator, *denominator);
}

std::optional<Rational> divide(const Rational& a, const Rational& b) {
    const auto inverse = Rational::of(b.denominator, b.numerator);
    return inverse ? multiply(a, *inverse) : std::nullopt;
}

Rational negated(const Rational& a) { return {-a.numerator, a.denominator}; }

std::optional<std::int64_t> nearestWhole(const Rational& a) {
    const Int128 size = magnitude(a.numerator);
    const Int128 whole = size / a.denominator;
    const Int128 rest = size % a.denominator;
    const Int128 nearest = whole + (rest >= a.denominator - rest ? 1 : 0);
    if (nearest > std::numeric_limits<std::int64_t>::max()) {
        return std::nullopt;
    }
    const auto result = static_cast<std::int64_t>(nearest);
    return a.numerator < 0 ? -result : result;
}

} // namespace stavewright::reading
