#pragma once
// Small irregularities of drawn figures that come out the same every time and on every machine.

#include <cstdint>

namespace stavewright::drawing {

/// Mixes its input well enough that neighbouring numbers look unrelated (the finaliser of the
/// splitmix64 generator, published by Steele, Lea and Flood, 2014).
[[nodiscard]] constexpr std::uint64_t mixed(std::uint64_t n) {
    n += 0x9E3779B97F4A7C15U;
    n = (n ^ (n >> 30U)) * 0xBF58476D1CE4E5B9U;
    n = (n ^ (n >> 27U)) * 0x94D049BB133111EBU;
    return n ^ (n >> 31U);
}

/// From 0 up to, not including, 1.
[[nodiscard]] constexpr double scatter(std::uint64_t seed, std::uint64_t index) {
    return static_cast<double>(mixed(mixed(seed) ^ index) >> 11U) * 0x1.0p-53;
}

} // namespace stavewright::drawing
