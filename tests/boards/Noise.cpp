#include "tests/boards/Noise.h"

#include <cmath>

namespace stavewright::boards {

namespace {

std::uint32_t mixed(std::uint32_t seed, std::uint32_t x, std::uint32_t y) {
    std::uint32_t h = seed * 0x9E3779B1U ^ x * 0x85EBCA77U ^ y * 0xC2B2AE3DU;
    h = (h ^ (h >> 15)) * 0x2C1B3C6DU;
    h = (h ^ (h >> 12)) * 0x297A2D39U;
    return h ^ (h >> 15);
}

} // namespace

std::uint32_t Chance::bits() {
    m_state ^= m_state << 13;
    m_state ^= m_state >> 7;
    m_state ^= m_state << 17;
    return static_cast<std::uint32_t>(m_state >> 32);
}

double Chance::between(double low, double high) {
    return low + (high - low) * bits() / 4294967296.0;
}

int Chance::whole(int low, int high) {
    return low + static_cast<int>(bits() % static_cast<std::uint32_t>(high - low + 1));
}

double grit(std::uint32_t seed, int x, int y) {
    return mixed(seed, static_cast<std::uint32_t>(x), static_cast<std::uint32_t>(y)) /
               2147483648.0 -
           1;
}

double noise(std::uint32_t seed, double x, double y) {
    const double fx = std::floor(x);
    const double fy = std::floor(y);
    const int ix = static_cast<int>(fx);
    const int iy = static_cast<int>(fy);
    const auto ease = [](double t) { return t * t * (3 - 2 * t); };
    const double u = ease(x - fx);
    const double v = ease(y - fy);
    const double above = grit(seed, ix, iy) * (1 - u) + grit(seed, ix + 1, iy) * u;
    const double below = grit(seed, ix, iy + 1) * (1 - u) + grit(seed, ix + 1, iy + 1) * u;
    return above * (1 - v) + below * v;
}

double roughNoise(std::uint32_t seed, double x, double y) {
    return 0.57 * noise(seed, x, y) + 0.29 * noise(seed + 1, 2.03 * x, 2.03 * y) +
           0.14 * noise(seed + 2, 4.1 * x, 4.1 * y);
}

} // namespace stavewright::boards
