#include "core/units/Rational.h"

#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace stavewright::reading {
namespace {

Rational ratio(std::int64_t numerator, std::int64_t denominator) {
    return Rational::of(numerator, denominator).value();
}

TEST(Rational, IsKeptInLowestTerms) {
    EXPECT_TRUE(ratio(16, 32) == ratio(1, 2));
    EXPECT_TRUE(ratio(1, -2) == ratio(-1, 2));
    EXPECT_TRUE(ratio(0, 5) == Rational::whole(0));
    EXPECT_FALSE(Rational::of(1, 0));
}

TEST(Rational, Calculates) {
    EXPECT_TRUE(add(ratio(1, 3), ratio(1, 6)).value() == ratio(1, 2));
    EXPECT_TRUE(multiply(ratio(2, 3), ratio(3, 4)).value() == ratio(1, 2));
    EXPECT_TRUE(divide(ratio(1, 2), ratio(-1, 4)).value() == Rational::whole(-2));
    EXPECT_FALSE(divide(ratio(1, 2), Rational::whole(0)));
}

TEST(Rational, SaysWhenItOverflows) {
    const Rational large = Rational::whole(std::numeric_limits<std::int64_t>::max());
    const auto square = multiply(large, large);
    ASSERT_TRUE(square);
    EXPECT_FALSE(multiply(*square, large));
    const auto tiny = divide(Rational::whole(1), *square);
    ASSERT_TRUE(tiny);
    EXPECT_FALSE(add(*tiny, *square));
    EXPECT_FALSE(nearestWhole(*square));
    const Int128 smallest = static_cast<Int128>(1) << 127;
    EXPECT_FALSE(Rational::of(smallest, 1));
    EXPECT_FALSE(Rational::of(1, smallest));
}

TEST(Rational, RoundsHalvesAwayFromZero) {
    EXPECT_EQ(nearestWhole(ratio(5, 2)), 3);
    EXPECT_EQ(nearestWhole(ratio(-5, 2)), -3);
    EXPECT_EQ(nearestWhole(ratio(7, 3)), 2);
    EXPECT_EQ(nearestWhole(ratio(-8, 3)), -3);
}

RC_GTEST_PROP(RationalProperty, AddAndMultiplyAgreeWithTheirInverses, ()) {
    const auto part = [] { return *rc::gen::inRange<std::int64_t>(1, 1'000'000); };
    const Rational a = ratio(part() - 500'000, part());
    const Rational b = ratio(part(), part());
    RC_ASSERT(add(add(a, b).value(), negated(b)).value() == a);
    RC_ASSERT(divide(multiply(a, b).value(), b).value() == a);
}

} // namespace
} // namespace stavewright::reading
