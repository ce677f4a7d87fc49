#pragma once
// Strips of rows whose worth is guessed, as they are handed to a stack: alike at all the rows of a
// group across, and of one height many that are a cell wider each.

#include <cstdint>
#include <span>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

class GuessedRows {
  public:
    struct Strips {
        std::uint32_t height; ///< for whom handed it in
        int footprint;        ///< cells from a strip's row to the lowest that the next may begin in
        int carries;          ///< and so many above it
        Cost most;            ///< none gains more
        std::uint32_t firstGain, lastGain;
    };

    void reset(int rowsOfGroup) {
        m_rowsOfGroup = rowsOfGroup;
        m_strips.clear();
        m_gains.clear();
        m_firstOf.assign(1, 0);
    }
    /// To the group that comes next: strips from `footprint` on, each a cell wider.
    void add(std::uint32_t height, int footprint, int carries, Cost most) {
        const auto at = static_cast<std::uint32_t>(m_gains.size());
        m_strips.push_back({height, footprint, carries, most, at, at});
    }
    /// Of the next strip of those added last.
    void addGain(Cost gain) {
        m_gains.push_back(gain);
        ++m_strips.back().lastGain;
    }
    void endGroup() { m_firstOf.push_back(static_cast<std::uint32_t>(m_strips.size())); }

    [[nodiscard]] std::span<const Strips> at(int row) const {
        const auto group = static_cast<std::size_t>(row / m_rowsOfGroup);
        if (group + 1 >= m_firstOf.size()) {
            return {};
        }
        return std::span(m_strips).subspan(m_firstOf[group],
                                           m_firstOf[group + 1] - m_firstOf[group]);
    }
    [[nodiscard]] std::span<const Cost> gains(const Strips& strips) const {
        return std::span(m_gains).subspan(strips.firstGain, strips.lastGain - strips.firstGain);
    }

  private:
    int m_rowsOfGroup = 1;
    std::vector<Strips> m_strips;
    std::vector<Cost> m_gains;
    std::vector<std::uint32_t> m_firstOf = {0}; ///< by group, and one more
};

} // namespace stavewright::cutting
