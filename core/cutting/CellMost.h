#pragma once
// The most that was reached at each of some cells, for passes that go once along them: cells are
// raised in any order ahead of the pass, which meets those that were, ascending, and leaves nothing
// behind.
//
//   CellMost most;
//   most.grow(cells);
//   most.raise(7, worth);
//   most.drain([&](int cell, Cost worth) { most.raise(cell + 3, worth + 1); });

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

class CellMost {
  public:
    static constexpr int none = std::numeric_limits<int>::max();

    /// For so many cells at least.
    void grow(int cells) {
        const auto size = static_cast<std::size_t>(std::max(0, cells));
        if (size > m_most.size()) {
            m_most.resize(size, 0);
            m_raised.resize((size + 63) / 64, 0);
        }
    }
    /// `worth`: more than nothing. Whether it is more than was reached there.
    bool raise(int cell, Cost worth) {
        const auto at = static_cast<std::size_t>(cell);
        const bool isMore = worth > m_most[at];
        m_most[at] = isMore ? worth : m_most[at];
        m_raised[at / 64] |= std::uint64_t{1} << (at % 64);
        return isMore;
    }
    /// The lowest cell that was raised and not met yet.
    [[nodiscard]] int next() const {
        for (std::size_t w = m_word; w < m_raised.size(); ++w) {
            if (m_raised[w] != 0) {
                return static_cast<int>(64 * w) + std::countr_zero(m_raised[w]);
            }
        }
        return none;
    }
    /// Of next(); none lower is raised any more.
    Cost take(int cell) {
        const auto at = static_cast<std::size_t>(cell);
        m_word = at / 64;
        m_raised[m_word] &= m_raised[m_word] - 1;
        const Cost worth = m_most[at];
        m_most[at] = 0;
        return worth;
    }
    /// Meets the rest, then begins anew. What is raised meanwhile lies ahead of the cell that is
    /// visited.
    template <class Visit>
    void drain(const Visit& visit) {
        for (std::size_t w = m_word; w < m_raised.size(); ++w) {
            while (m_raised[w] != 0) {
                const int bit = std::countr_zero(m_raised[w]);
                m_raised[w] &= m_raised[w] - 1;
                const std::size_t at = 64 * w + static_cast<std::size_t>(bit);
                const Cost worth = m_most[at];
                m_most[at] = 0;
                visit(static_cast<int>(at), worth);
            }
        }
        m_word = 0;
    }

  private:
    std::vector<Cost> m_most;
    std::vector<std::uint64_t> m_raised; ///< as bits
    std::size_t m_word = 0;              ///< of them, up to which the pass has come
};

} // namespace stavewright::cutting
