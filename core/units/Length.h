#pragma once
// Length: the only type for a length anywhere in the program, an integer number of nanometres.
// 1/64 in = 396 875 nm and 0.1 mm = 100 000 nm are both exact, so inches in fractions and
// millimetres round-trip. Area and Volume are exact 128-bit integers of nm^2 and nm^3.
//
//   Length rough = Length::inches(27) + Length::inches(1, 2);
//   Area face = rough * Length::millimetres(90);

#include <cassert>
#include <compare>
#include <cstdint>

namespace stavewright {

__extension__ typedef __int128 Int128;

class Length {
  public:
    static constexpr std::int64_t nanometresPerInch = 25'400'000;
    static constexpr std::int64_t nanometresPerMillimetre = 1'000'000;
    static constexpr std::int64_t nanometresPerMicrometre = 1'000;

    constexpr Length() = default;
    [[nodiscard]] static constexpr Length nanometres(std::int64_t n) { return Length(n); }
    [[nodiscard]] static constexpr Length micrometres(std::int64_t n) {
        return Length(n * nanometresPerMicrometre);
    }
    [[nodiscard]] static constexpr Length millimetres(std::int64_t n) {
        return Length(n * nanometresPerMillimetre);
    }
    [[nodiscard]] static constexpr Length inches(std::int64_t n) {
        return Length(n * nanometresPerInch);
    }
    /// numerator/denominator inches; the fraction must be a whole number of nanometres.
    [[nodiscard]] static constexpr Length inches(std::int64_t numerator, std::int64_t denominator) {
        assert(denominator > 0 && numerator * nanometresPerInch % denominator == 0);
        return Length(numerator * nanometresPerInch / denominator);
    }

    [[nodiscard]] constexpr std::int64_t inNanometres() const { return m_nanometres; }
    /// Lossy; for display, drawing and statistics only.
    [[nodiscard]] constexpr double toInches() const {
        return static_cast<double>(m_nanometres) / static_cast<double>(nanometresPerInch);
    }
    /// Lossy; for display, drawing and statistics only.
    [[nodiscard]] constexpr double toMillimetres() const {
        return static_cast<double>(m_nanometres) / static_cast<double>(nanometresPerMillimetre);
    }

    friend constexpr auto operator<=>(const Length&, const Length&) = default;
    constexpr Length operator-() const { return Length(-m_nanometres); }
    constexpr Length& operator+=(Length other) {
        m_nanometres += other.m_nanometres;
        return *this;
    }
    constexpr Length& operator-=(Length other) {
        m_nanometres -= other.m_nanometres;
        return *this;
    }
    friend constexpr Length operator+(Length a, Length b) { return a += b; }
    friend constexpr Length operator-(Length a, Length b) { return a -= b; }
    friend constexpr Length operator*(Length a, std::int64_t n) {
        return Length(a.m_nanometres * n);
    }
    friend constexpr Length operator*(std::int64_t n, Length a) { return a * n; }
    /// Rounds towards zero.
    friend constexpr Length operator/(Length a, std::int64_t n) {
        return Length(a.m_nanometres / n);
    }
    /// How many whole `b` go into `a`.
    friend constexpr std::int64_t operator/(Length a, Length b) {
        return a.m_nanometres / b.m_nanometres;
    }
    friend constexpr Length operator%(Length a, Length b) {
        return Length(a.m_nanometres % b.m_nanometres);
    }

  private:
    explicit constexpr Length(std::int64_t n)
        : m_nanometres(n) {}
    std::int64_t m_nanometres = 0;
};

class Area {
  public:
    constexpr Area() = default;
    [[nodiscard]] static constexpr Area squareNanometres(Int128 n) { return Area(n); }
    [[nodiscard]] constexpr Int128 inSquareNanometres() const { return m_value; }
    [[nodiscard]] constexpr double toSquareInches() const {
        return static_cast<double>(m_value) / (25.4e6 * 25.4e6);
    }
    friend constexpr bool operator==(const Area& a, const Area& b) {
        return a.m_value == b.m_value;
    }
    friend constexpr bool operator<(const Area& a, const Area& b) { return a.m_value < b.m_value; }
    friend constexpr bool operator>(const Area& a, const Area& b) { return b < a; }
    friend constexpr bool operator<=(const Area& a, const Area& b) { return !(b < a); }
    friend constexpr bool operator>=(const Area& a, const Area& b) { return !(a < b); }
    constexpr Area& operator+=(Area other) {
        m_value += other.m_value;
        return *this;
    }
    constexpr Area& operator-=(Area other) {
        m_value -= other.m_value;
        return *this;
    }
    friend constexpr Area operator+(Area a, Area b) { return a += b; }
    friend constexpr Area operator-(Area a, Area b) { return a -= b; }
    friend constexpr Area operator*(Area a, std::int64_t n) { return Area(a.m_value * n); }

  private:
    explicit constexpr Area(Int128 n)
        : m_value(n) {}
    Int128 m_value = 0;
};

class Volume {
  public:
    constexpr Volume() = default;
    [[nodiscard]] static constexpr Volume cubicNanometres(Int128 n) { return Volume(n); }
    [[nodiscard]] constexpr Int128 inCubicNanometres() const { return m_value; }
    [[nodiscard]] constexpr double toCubicInches() const {
        return static_cast<double>(m_value) / (25.4e6 * 25.4e6 * 25.4e6);
    }
    friend constexpr bool operator==(const Volume& a, const Volume& b) {
        return a.m_value == b.m_value;
    }
    friend constexpr bool operator<(const Volume& a, const Volume& b) {
        return a.m_value < b.m_value;
    }
    constexpr Volume& operator+=(Volume other) {
        m_value += other.m_value;
        return *this;
    }
    friend constexpr Volume operator+(Volume a, Volume b) { return a += b; }
    friend constexpr Volume operator*(Volume a, std::int64_t n) { return Volume(a.m_value * n); }

  private:
    explicit constexpr Volume(Int128 n)
        : m_value(n) {}
    Int128 m_value = 0;
};

[[nodiscard]] constexpr Area operator*(Length a, Length b) {
    return Area::squareNanometres(static_cast<Int128>(a.inNanometres()) * b.inNanometres());
}
[[nodiscard]] constexpr Volume operator*(Area a, Length t) {
    return Volume::cubicNanometres(a.inSquareNanometres() * t.inNanometres());
}
[[nodiscard]] constexpr Length abs(Length a) { return a < Length() ? -a : a; }

} // namespace stavewright
