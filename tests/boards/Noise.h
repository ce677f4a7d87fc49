#pragma once
// Repeatable chance for made boards: a small generator of its own, and smooth noise over the plane.

#include <cstdint>

namespace stavewright::boards {

class Chance {
  public:
    explicit Chance(std::uint64_t seed)
        : m_state(seed * 0x9E3779B97F4A7C15U + 0x1234567U) {}
    [[nodiscard]] std::uint32_t bits();
    [[nodiscard]] double between(double low, double high);
    /// A whole number in [low, high].
    [[nodiscard]] int whole(int low, int high);
    [[nodiscard]] bool happens(double chance) { return between(0, 1) < chance; }

  private:
    std::uint64_t m_state;
};

/// Smooth, in -1 to 1, changing over about one unit.
[[nodiscard]] double noise(std::uint32_t seed, double x, double y);
/// Three octaves of it.
[[nodiscard]] double roughNoise(std::uint32_t seed, double x, double y);
/// White, in -1 to 1, of whole places.
[[nodiscard]] double grit(std::uint32_t seed, int x, int y);

} // namespace stavewright::boards
