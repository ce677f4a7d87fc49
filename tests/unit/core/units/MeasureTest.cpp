// Board feet and money. Tally rules of lumber are tested with core/lumber.
#include "core/units/Measure.h"

#include <concepts>

#include <gtest/gtest.h>

namespace stavewright {
namespace {

constexpr Volume cubicInches(std::int64_t n) {
    return Length::inches(n) * Length::inches(1) * Length::inches(1);
}

// 1 board foot is 144 cubic inches (1 in x 12 in x 12 in). Source: National Hardwood Lumber
// Association, Rules for the Measurement and Inspection of Hardwood and Cypress, definition of the
// board foot.
static_assert(BoardFeet::ofVolume(cubicInches(144)) == BoardFeet::whole(1));
static_assert(BoardFeet::ofVolume(cubicInches(72)) == BoardFeet::millionths(500'000));
static_assert(BoardFeet::ofVolume(Volume()) == BoardFeet());

// Rounded to the nearest millionth: 1/144 bd ft = 0.00694444..., 5/144 = 0.0347222...
static_assert(BoardFeet::ofVolume(cubicInches(1)) == BoardFeet::millionths(6'944));
static_assert(BoardFeet::ofVolume(cubicInches(5)) == BoardFeet::millionths(34'722));
static_assert(BoardFeet::ofVolume(cubicInches(7)) == BoardFeet::millionths(48'611));
static_assert(BoardFeet::ofVolume(cubicInches(-7)) == BoardFeet::millionths(-48'611));

static_assert(BoardFeet::whole(2) + BoardFeet::whole(3) == BoardFeet::whole(5));
static_assert(BoardFeet::whole(2) - BoardFeet::whole(3) == BoardFeet::whole(-1));
static_assert(BoardFeet::whole(2) * 4 == BoardFeet::whole(8));
static_assert(BoardFeet::whole(2) < BoardFeet::whole(3));

static_assert(Money::whole(8) + Money::cents(50) == Money::tenThousandths(85'000));
static_assert(-Money::cents(5) == Money() - Money::cents(5));
static_assert(Money::cents(5) * 3 == Money::cents(15));

static_assert(priceOf(Money::cents(850), BoardFeet::whole(10)) == Money::whole(85));
// half a ten-thousandth rounds away from zero, on both sides of zero
static_assert(priceOf(Money::tenThousandths(1), BoardFeet::millionths(500'000)) ==
              Money::tenThousandths(1));
static_assert(priceOf(Money::tenThousandths(1), BoardFeet::millionths(499'999)) == Money());
static_assert(priceOf(Money::tenThousandths(-1), BoardFeet::millionths(500'000)) ==
              Money::tenThousandths(-1));

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
    a == b;
};
static_assert(!Addable<Money, BoardFeet>);
static_assert(!Addable<Money, int>);
static_assert(!Addable<BoardFeet, double>);
static_assert(!Comparable<Money, BoardFeet>);
static_assert(!Comparable<Money, double>);
static_assert(!std::convertible_to<double, Money>);

TEST(BoardFeet, OfALargeStackDoNotOverflow) {
    // A solid stack of 100 m x 10 m x 10 m: 10^4 m^3 = 4 237 760.0007 bd ft at 144 x 25.4^3 mm^3
    // each.
    const Volume stack =
        Length::millimetres(100'000) * Length::millimetres(10'000) * Length::millimetres(10'000);
    EXPECT_NEAR(BoardFeet::ofVolume(stack).toDouble(), 1e13 / (144 * 25.4 * 25.4 * 25.4), 1e-3);
}

TEST(Money, OfAnExpensiveStackDoesNotOverflow) {
    EXPECT_EQ(priceOf(Money::whole(1'000), BoardFeet::whole(1'000'000)),
              Money::whole(1'000'000'000));
}

TEST(BoardFeet, AddUpInPlace) {
    BoardFeet total;
    total += BoardFeet::whole(3);
    total -= BoardFeet::millionths(1);
    EXPECT_EQ(total.inMillionths(), 2'999'999);
    EXPECT_DOUBLE_EQ(total.toDouble(), 2.999999);
}

TEST(Money, AddsUpInPlace) {
    Money total;
    total += Money::cents(12);
    total -= Money::cents(20);
    EXPECT_EQ(total, -Money::cents(8));
    EXPECT_DOUBLE_EQ(total.toDouble(), -0.08);
}

} // namespace
} // namespace stavewright
