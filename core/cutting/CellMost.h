#pragma once
// The most that was reached at each of some cells, for passes that go once along them: cells are
// raised in any order ahead of the pass, which meets those that were, ascending, and leaves nothing
// behind.
//
//   CellMost most;
//   most.reset(cells);
//   most.raise(7, worth);
//   most.drain([&](int cell, Cost worth) { most.raise(cell + 3, worth + 1); });

#include <bit>
#include <cstdint>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

class CellMost {
  public:
    void reset(int cells) {
        m_most.assign(static_cast<std::size_t>(cells), 0);
        m_raised.assign((m_most.size() + 63) / 64, 0);
    }
    /// `worth`: more than nothing.
    void raise(int cell, Cost worth) {
        const auto at = static_cast<std::size_t>(cell);
        m_most[at] = worth > m_most[at] ? worth : m_most[at];
        m_raised[at / 64] |= std::uint64_t{1} << (at % 64);
    }
    /// What is raised meanwhile lies ahead of the cell that is visited.
    template <class Visit>
    void drain(const Visit& visit) {
        for (std::size_t w = 0; w < m_raised.size(); ++w) {
            while (m_raised[w] != 0) {
                const std::size_t at =
                    64 * w + static_cast<std::size_t>(std::countr_zero(m_raised[w]));
                m_raised[w] &= m_raised[w] - 1;
                const Cost worth = m_most[at];
                m_most[at] = 0;
                visit(static_cast<int>(at), worth);
            }
        }
    }

  private:
    std::vector<Cost> m_most;
    std::vector<std::uint64_t> m_raised; ///< as bits
};

} // namespace stavewright::cutting
