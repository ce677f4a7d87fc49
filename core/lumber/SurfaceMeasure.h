#pragma once
// How hardwood is tallied, by the published rules (reference: NHLA rules as quoted in the tests).

#include <vector>

#include "core/lumber/Board.h"

namespace stavewright {

/// Surface measure in whole feet: width (with fractions) x whole feet of length / 12, rounded to
/// nearest; exact halves go up one time and down the next, so a tally needs one of these per stack.
class SurfaceMeasureTally {
  public:
    [[nodiscard]] std::int64_t add(Length length, Length width);

  private:
    bool m_nextHalfGoesUp = true;
};

/// Board feet of a tallied board: surface measure x thickness in inches; under 1 in counts as 1 in.
[[nodiscard]] BoardFeet tallied(std::int64_t surfaceMeasure, Quarter quarter);

/// thickness x width x length / 144, exact.
[[nodiscard]] BoardFeet boardFeetOfSize(Length thickness, Length width, Length length);

} // namespace stavewright
