#pragma once
// Board feet, money and price: the quantities that lumber is bought and compared by.

#include <compare>
#include <cstdint>

#include "core/units/Length.h"

namespace stavewright {

/// Lumber volume in the trade's measure: 1 board foot = 144 in^3 of nominal rough thickness.
/// Held in millionths of a board foot.
class BoardFeet {
  public:
    constexpr BoardFeet() = default;
    [[nodiscard]] static constexpr BoardFeet millionths(std::int64_t n) { return BoardFeet(n); }
    [[nodiscard]] static constexpr BoardFeet whole(std::int64_t n) {
        return BoardFeet(n * 1'000'000);
    }
    /// Rounded to the nearest millionth, halves away from zero.
    [[nodiscard]] static constexpr BoardFeet ofVolume(Volume volume) {
        // 144 in^3 in nm^3, over a million
        constexpr Int128 perMillionth = static_cast<Int128>(Length::nanometresPerInch) *
                                        Length::nanometresPerInch * Length::nanometresPerInch *
                                        144 / 1'000'000;
        const Int128 v = volume.inCubicNanometres();
        const Int128 half = v < 0 ? -perMillionth / 2 : perMillionth / 2;
        return BoardFeet(static_cast<std::int64_t>((v + half) / perMillionth));
    }
    [[nodiscard]] constexpr std::int64_t inMillionths() const { return m_value; }
    [[nodiscard]] constexpr double toDouble() const { return static_cast<double>(m_value) / 1e6; }

    friend constexpr auto operator<=>(const BoardFeet&, const BoardFeet&) = default;
    constexpr BoardFeet& operator+=(BoardFeet other) {
        m_value += other.m_value;
        return *this;
    }
    constexpr BoardFeet& operator-=(BoardFeet other) {
        m_value -= other.m_value;
        return *this;
    }
    friend constexpr BoardFeet operator+(BoardFeet a, BoardFeet b) { return a += b; }
    friend constexpr BoardFeet operator-(BoardFeet a, BoardFeet b) { return a -= b; }
    friend constexpr BoardFeet operator*(BoardFeet a, std::int64_t n) {
        return BoardFeet(a.m_value * n);
    }

  private:
    explicit constexpr BoardFeet(std::int64_t n)
        : m_value(n) {}
    std::int64_t m_value = 0;
};

/// An amount in the job's currency, in ten-thousandths (a hundredth of a cent).
class Money {
  public:
    constexpr Money() = default;
    [[nodiscard]] static constexpr Money tenThousandths(std::int64_t n) { return Money(n); }
    [[nodiscard]] static constexpr Money cents(std::int64_t n) { return Money(n * 100); }
    [[nodiscard]] static constexpr Money whole(std::int64_t n) { return Money(n * 10'000); }
    [[nodiscard]] constexpr std::int64_t inTenThousandths() const { return m_value; }
    [[nodiscard]] constexpr double toDouble() const { return static_cast<double>(m_value) / 1e4; }

    friend constexpr auto operator<=>(const Money&, const Money&) = default;
    constexpr Money operator-() const { return Money(-m_value); }
    constexpr Money& operator+=(Money other) {
        m_value += other.m_value;
        return *this;
    }
    constexpr Money& operator-=(Money other) {
        m_value -= other.m_value;
        return *this;
    }
    friend constexpr Money operator+(Money a, Money b) { return a += b; }
    friend constexpr Money operator-(Money a, Money b) { return a -= b; }
    friend constexpr Money operator*(Money a, std::int64_t n) { return Money(a.m_value * n); }

  private:
    explicit constexpr Money(std::int64_t n)
        : m_value(n) {}
    std::int64_t m_value = 0;
};

/// price x board feet, rounded to the nearest ten-thousandth.
[[nodiscard]] constexpr Money priceOf(Money perBoardFoot, BoardFeet amount) {
    const Int128 product =
        static_cast<Int128>(perBoardFoot.inTenThousandths()) * amount.inMillionths();
    const Int128 half = product < 0 ? -500'000 : 500'000;
    return Money::tenThousandths(static_cast<std::int64_t>((product + half) / 1'000'000));
}

} // namespace stavewright
