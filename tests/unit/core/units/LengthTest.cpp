// Length, Area and Volume: exact sizes, and what must not compile.
#include "core/units/Length.h"

#include <concepts>
#include <cstdint>

#include <gtest/gtest.h>

namespace stavewright {
namespace {

// The international inch is exactly 25.4 mm. Source (from memory): National Bureau of Standards,
// "Refinement of Values for the Yard and the Pound", Federal Register, 1 July 1959 (yard = 0.9144
// m).
static_assert(Length::inches(1) == Length::micrometres(25'400));
static_assert(Length::inches(36) == Length::micrometres(914'400));

static_assert(Length::inches(1, 64).inNanometres() == 396'875);
static_assert(Length::millimetres(1) / 10 == Length::micrometres(100));
static_assert(Length::inches(27) + Length::inches(1, 2) == Length::inches(55, 2));
static_assert(Length::inches(3, 4) - Length::inches(1) == -Length::inches(1, 4));
static_assert(Length::inches(1, 8) * 8 == 8 * Length::inches(1, 8));
static_assert(Length::inches(10) / Length::inches(3) == 3);
static_assert(Length::inches(10) % Length::inches(3) == Length::inches(1));
static_assert(Length() == Length::nanometres(0));
static_assert(abs(-Length::inches(2)) == Length::inches(2));
static_assert(Length::nanometres(-7) / 2 == Length::nanometres(-3), "rounds towards zero");
static_assert(Length::nanometres(1) > Length() && Length::nanometres(-1) < Length());

static_assert(std::same_as<decltype(Length() * Length()), Area>);
static_assert(std::same_as<decltype(Area() * Length()), Volume>);
static_assert(std::same_as<decltype(Length() / Length()), std::int64_t>);
static_assert(std::same_as<decltype(Length() / 2), Length>);

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
    a == b;
};
template <class A, class B>
concept Ordered = requires(A a, B b) {
    a < b;
};

static_assert(Addable<Length, Length>);
static_assert(!Addable<Length, int>);
static_assert(!Addable<Length, std::int64_t>);
static_assert(!Addable<Length, double>);
static_assert(!Addable<Length, Area>);
static_assert(!Addable<Area, Volume>);
static_assert(Comparable<Length, Length>);
static_assert(!Comparable<Length, double>);
static_assert(!Comparable<Length, int>);
static_assert(!Comparable<Length, Area>);
static_assert(!Ordered<Length, int>);
static_assert(!std::convertible_to<int, Length>);
static_assert(!std::convertible_to<double, Length>);
static_assert(!std::convertible_to<Length, std::int64_t>);
static_assert(!std::convertible_to<Length, double>);
static_assert(!std::constructible_from<Length, std::int64_t>, "a bare number has no unit");

TEST(Length, ShowsInBothUnits) {
    EXPECT_DOUBLE_EQ(Length::inches(55, 2).toInches(), 27.5);
    EXPECT_DOUBLE_EQ(Length::inches(55, 2).toMillimetres(), 698.5);
}

TEST(Length, AddsUpInPlace) {
    Length total;
    for (int i = 0; i < 64; ++i) {
        total += Length::inches(1, 64);
    }
    EXPECT_EQ(total, Length::inches(1));
    total -= Length::inches(1, 32);
    EXPECT_EQ(total, Length::inches(31, 32));
}

TEST(Area, OfTheLargestBoardIsExact) {
    // 1 km x 1 km, the largest lengths that can be typed: 10^24 nm^2, beyond 64 bits
    const Area area = Length::millimetres(1'000'000) * Length::millimetres(1'000'000);
    const Int128 expected = static_cast<Int128>(1'000'000'000'000) * 1'000'000'000'000;
    EXPECT_TRUE(area.inSquareNanometres() == expected);
    EXPECT_TRUE(area > Area());
    EXPECT_TRUE(area - area == Area());
    EXPECT_TRUE(area + area == area * 2);
    EXPECT_TRUE(area <= area && area >= area);
}

TEST(Area, InSquareInches) {
    EXPECT_DOUBLE_EQ((Length::inches(12) * Length::inches(12)).toSquareInches(), 144.0);
}

TEST(Volume, InCubicInches) {
    const Volume volume = Length::inches(12) * Length::inches(12) * Length::inches(1);
    EXPECT_DOUBLE_EQ(volume.toCubicInches(), 144.0);
    EXPECT_TRUE(volume + volume == volume * 2);
    EXPECT_TRUE(Volume() < volume);
}

} // namespace
} // namespace stavewright
