#pragma once
// How wide free widths may be on a lattice: by place along and low edge the highest high edge, for
// every level of what is paid. Most places are like the one before, and most levels like the one
// below; what is alike is kept once.
//
//   LatticeReach reach;
//   reach.whole(level) = ...;        // by place along, then across
//   reach.pack(rows);
//   int high = reach.at(level, place)[v];

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace stavewright::cutting {

template <std::size_t levels>
class LatticeReach {
  public:
    /// Until it is packed.
    [[nodiscard]] std::vector<std::int16_t>& whole(std::size_t level) { return m_whole[level]; }
    [[nodiscard]] const std::vector<std::int16_t>& whole(std::size_t level) const {
        return m_whole[level];
    }

    /// `rows`: edges across at every place.
    void pack(std::size_t rows) {
        m_rows = rows;
        for (std::size_t level = 0; level < levels; ++level) {
            const std::vector<std::int16_t>& whole = m_whole[level];
            std::vector<std::uint32_t>& line = m_lines[level];
            for (std::size_t from = 0; from + rows <= whole.size(); from += rows) {
                const std::int16_t* here = whole.data() + from;
                const std::size_t place = line.size();
                const auto isLike = [&](const std::vector<std::uint32_t>& other, std::size_t at) {
                    return at < other.size() && std::equal(here, here + rows, lineAt(other[at]));
                };
                if (place > 0 && isLike(line, place - 1)) {
                    line.push_back(line.back());
                } else if (level > 0 && isLike(m_lines[level - 1], place)) {
                    line.push_back(m_lines[level - 1][place]);
                } else {
                    line.push_back(static_cast<std::uint32_t>(m_kept.size() / rows));
                    m_kept.insert(m_kept.end(), here, here + rows);
                }
            }
        }
        m_kept.shrink_to_fit();
        m_whole = {};
    }

    /// By low edge; once it is packed.
    [[nodiscard]] const std::int16_t* at(std::size_t level, std::size_t place) const {
        return lineAt(m_lines[level][place]);
    }

  private:
    [[nodiscard]] const std::int16_t* lineAt(std::uint32_t line) const {
        return m_kept.data() + line * m_rows;
    }

    std::array<std::vector<std::int16_t>, levels> m_whole;
    std::size_t m_rows = 0;
    std::vector<std::int16_t> m_kept;
    std::array<std::vector<std::uint32_t>, levels> m_lines; ///< by place
};

} // namespace stavewright::cutting
