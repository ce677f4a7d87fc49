#pragma once
// How wide a stave of free width may be where defects bar its way, by the cell across in which its
// low edge lies. Where in that cell counts: taken to the cell's own edge, every stave that stands
// on a knot would gain up to a step.
//
//   FreeWidths widths;
//   widths.highest(bars, lowBars, top, step, cells);

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

    /// By cell of the low edge, each `step` high: the cell of the highest high edge, no higher than
    /// `top`, of a stave as wide as a whole number of steps. Where none is, the cell itself.
    /// `bars`: what no stave may hold; its high edge lies no higher than where that begins, or its
    /// low edge no lower than where it ends. They are put in order for it. `lowBars`: in these the
    /// low edge may not lie.
    void highest(std::vector<Bar>& bars, const std::vector<Bar>& lowBars, Nm top, Nm step,
                 std::span<std::int16_t> byCell);

  private:
    std::vector<Nm> m_ceilings; ///< by bar: under it and all that end higher
    std::vector<Nm> m_stands;   ///< of low edges
};

} // namespace stavewright::cutting
