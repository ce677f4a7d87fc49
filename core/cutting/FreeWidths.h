#pragma once
// How wide a stave of free width may be where defects bar its way, by the cell across in which its
// low edge lies. Where in that cell counts: taken to the cell's own edge, every stave that stands
// on a knot would gain up to a step.
//
//   FreeWidths widths(places);
//   widths.bar(place, {above, below});
//   widths.highest(place, top, step, cells);

#include <cstdint>
#include <span>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

class FreeWidths {
  public:
    /// Heights between which something lies.
    struct Bar {
        Nm above = 0, below = 0;
    };

    /// Of so many places along.
    explicit FreeWidths(int places)
        : m_bars(static_cast<std::size_t>(places))
        , m_lowBars(static_cast<std::size_t>(places)) {}

    /// Something that no stave may hold: its high edge lies no higher than where that begins, or
    /// its low edge no lower than where it ends.
    void bar(int place, Bar bar) { m_bars[static_cast<std::size_t>(place)].push_back(bar); }
    /// The low edge may not lie in it.
    void barLow(int place, Bar bar) { m_lowBars[static_cast<std::size_t>(place)].push_back(bar); }

    /// By cell of the low edge, each `step` high: the cell of the highest high edge, no higher than
    /// `top`, of a stave as wide as a whole number of steps. Where none is, the cell itself.
    void highest(int place, Nm top, Nm step, std::span<std::int16_t> byCell);

  private:
    std::vector<std::vector<Bar>> m_bars, m_lowBars; ///< by place
    std::vector<Nm> m_ceilings;                      ///< by bar: under it and all that end higher
    std::vector<Nm> m_stands;
};

} // namespace stavewright::cutting
