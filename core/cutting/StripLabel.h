#pragma once
// What a bound's stack is told of a strip: the number of a fixed width; of a pool, with how many
// steps it is wider than the pool's least width; or, for a row of several blanks, that of its
// height (RowBound.h), with how many cells it is wider.

#include <cstddef>
#include <cstdint>

namespace stavewright::cutting {

class StripLabel {
  public:
    /// From a StackedStrip.
    explicit StripLabel(std::uint32_t code)
        : m_code(code) {}

    [[nodiscard]] static StripLabel ofFixed(std::size_t index) {
        return StripLabel(static_cast<std::uint32_t>(index));
    }
    [[nodiscard]] static StripLabel ofPool(std::size_t index, int step) {
        return StripLabel(pool | coded(index, step));
    }
    [[nodiscard]] static StripLabel ofRow(std::size_t height, int step) {
        return StripLabel(row | coded(height, step));
    }

    [[nodiscard]] bool isRow() const { return (m_code & row) != 0; }
    [[nodiscard]] bool isPool() const { return (m_code & pool) != 0; }
    /// Of whatever it is.
    [[nodiscard]] std::uint32_t index() const {
        return isRow() || isPool() ? (m_code & ~(row | pool)) / steps : m_code;
    }
    /// Of a pool or a row.
    [[nodiscard]] int step() const { return static_cast<int>(m_code % steps); }
    [[nodiscard]] std::uint32_t code() const { return m_code; }

  private:
    static constexpr std::uint32_t row = 0x8000'0000;
    static constexpr std::uint32_t pool = 0x4000'0000;
    static constexpr std::uint32_t steps = 0x1'0000;
    [[nodiscard]] static std::uint32_t coded(std::size_t index, int step) {
        return static_cast<std::uint32_t>(index * steps + static_cast<std::size_t>(step));
    }
    std::uint32_t m_code;
};

} // namespace stavewright::cutting
