#pragma once
// Rows of numbers, all of one size, of which those that are alike are kept once.
//
//   SharedRows rows;
//   rows.begin(size);
//   std::uint32_t row = rows.add(numbers);
//   rows.settle();
//   const std::int16_t* numbers = rows.at(row);

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <unordered_map>
#include <vector>

namespace stavewright::cutting {

class SharedRows {
  public:
    void begin(std::size_t size) { m_size = size; }
    /// Until it is settled.
    [[nodiscard]] std::uint32_t add(const std::int16_t* numbers);
    /// No more are added.
    void settle() {
        m_kept.shrink_to_fit();
        m_known = {};
    }

    [[nodiscard]] const std::int16_t* at(std::uint32_t row) const {
        return m_kept.data() + row * m_size;
    }
    /// Different ones.
    [[nodiscard]] std::size_t count() const { return m_size == 0 ? 0 : m_kept.size() / m_size; }

  private:
    [[nodiscard]] std::uint64_t hashOf(const std::int16_t* numbers) const;

    std::size_t m_size = 0;
    std::vector<std::int16_t> m_kept;
    std::unordered_multimap<std::uint64_t, std::uint32_t> m_known; ///< by hash
};

inline std::uint64_t SharedRows::hashOf(const std::int16_t* numbers) const {
    std::uint64_t mixed = 0;
    for (std::size_t i = 0; i < m_size; ++i) {
        mixed = (mixed ^ static_cast<std::uint16_t>(numbers[i])) * 0x9E3779B97F4A7C15ULL;
        mixed ^= mixed >> 29;
    }
    return mixed;
}

inline std::uint32_t SharedRows::add(const std::int16_t* numbers) {
    const std::uint64_t hash = hashOf(numbers);
    const auto [first, last] = m_known.equal_range(hash);
    for (auto known = first; known != last; ++known) {
        if (std::equal(numbers, numbers + m_size, at(known->second))) {
            return known->second;
        }
    }
    const auto row = static_cast<std::uint32_t>(count());
    m_kept.insert(m_kept.end(), numbers, numbers + m_size);
    m_known.emplace(hash, row);
    return row;
}

} // namespace stavewright::cutting
