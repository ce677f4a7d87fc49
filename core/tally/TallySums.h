#pragma once
// What a stack of boards comes to, counted in both ways: by the tally rule of the trade and by the
// exact size.

#include "core/lumber/Board.h"
#include "core/lumber/SurfaceMeasure.h"

namespace stavewright {

/// The width that is tallied: of a tapering board the width a third of its length from the narrow
/// end (NHLA rules, measurement of tapering lumber).
[[nodiscard]] Length talliedWidth(const Board& board);

struct TallySums {
    std::size_t boards = 0;
    BoardFeet tallied; ///< whole feet of surface measure x thickness
    BoardFeet exact;   ///< nominal thickness x area of the outline
    Money cost;        ///< of what is billed, else of the exact size
    friend bool operator==(const TallySums&, const TallySums&) = default;
};

/// Adds up one stack in the order given: exact halves of surface measure go up one time and down
/// the next.
class TallySummer {
  public:
    /// Returns the board feet that this board is tallied as.
    BoardFeet add(const Board& board);
    [[nodiscard]] const TallySums& sums() const { return m_sums; }

  private:
    SurfaceMeasureTally m_tally;
    TallySums m_sums;
};

[[nodiscard]] TallySums sumsOf(const std::vector<Board>& boards);

} // namespace stavewright
