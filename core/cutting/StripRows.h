#pragma once
// The strips of a lattice that were asked for so far, kept so that other sections and other prices
// need not work them out again. Not for two threads at once.

#include <map>
#include <tuple>

#include "core/cutting/StripRow.h"

namespace stavewright::cutting {

class StripRows {
  public:
    /// `height` and `step` stand for the place's widths.
    [[nodiscard]] const StripRow& at(const Lattice& lattice, const StripPlace& place,
                                     std::uint32_t height, int step) {
        if (m_strips.size() >= most) {
            m_strips.clear();
        }
        const auto key = std::tuple(place.v, height, step);
        auto known = m_strips.find(key);
        if (known == m_strips.end()) {
            known = m_strips.emplace(key, StripRow(lattice, place)).first;
        }
        return known->second;
    }
    [[nodiscard]] std::size_t size() const { return m_strips.size(); }

  private:
    static constexpr std::size_t most = 8000; ///< a few kilobytes each
    std::map<std::tuple<int, std::uint32_t, int>, StripRow> m_strips;
};

} // namespace stavewright::cutting
