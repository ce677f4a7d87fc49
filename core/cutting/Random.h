#pragma once
// Repeatable chance: a fixed engine and our own mapping to integers (the standard distributions are
// not specified bit for bit).

#include <cassert>
#include <cstdint>
#include <random>

namespace stavewright::cutting {

class Random {
  public:
    explicit Random(std::uint64_t seed)
        : m_engine(seed) {}

    /// A whole number in [0, below).
    [[nodiscard]] std::size_t below(std::size_t below) {
        assert(below > 0);
        return static_cast<std::size_t>(m_engine() % below);
    }
    /// A whole number in [low, high].
    [[nodiscard]] std::int64_t between(std::int64_t low, std::int64_t high) {
        return low +
               static_cast<std::int64_t>(m_engine() % static_cast<std::uint64_t>(high - low + 1));
    }
    template <class T>
    void shuffle(std::vector<T>& items) {
        for (std::size_t i = items.size(); i > 1; --i) {
            std::swap(items[i - 1], items[below(i)]);
        }
    }

  private:
    std::mt19937_64 m_engine;
};

} // namespace stavewright::cutting
