#pragma once
// A camera whose every property is known: what it shows of a board is worked out by geometry of its
// own (a pinhole and a lens in space), not by the code under test.

#include <vector>

#include "core/photo/Straighten.h"

namespace stavewright::photo::testing {

struct TestCamera {
    int width = 4000;
    int height = 3000;
    double focal = 3000;   ///< pixels
    double barrel = 0;     ///< 0.03: a place at the picture's corner is drawn 3 % nearer the middle
    double x = 48;         ///< where on the board it looks, in inches
    double y = 4;          ///< inches
    double distance = 80;  ///< inches
    double tilt = 0;       ///< radians, looking along the grain
    double lean = 0;       ///< radians, looking across the grain
    double roll = 0;       ///< radians, about its own axis
    bool mirrored = false; ///< of face B

    /// Where it shows this place of the board (inches).
    [[nodiscard]] Pixels shows(double boardX, double boardY) const;
};

/// Repeatable places at which a hand marks something, at most `off` pixels from where it is.
class Hand {
  public:
    explicit Hand(std::uint64_t seed)
        : m_state(seed * 2654435761U + 1) {}
    [[nodiscard]] double between(double low, double high);
    [[nodiscard]] PhotoPoint mark(Pixels at, double off);

  private:
    std::uint64_t m_state;
};

/// Root of the mean square of how far the map is off, and the most, over marks all over the part of
/// the board between two places (inches).
struct MapError {
    double rms = 0;
    double worst = 0;
};
MapError errorOf(const PhotoMap& map, const TestCamera& camera, const BoardSize& board, double from,
                 double to);

[[nodiscard]] Length inches(double n);
[[nodiscard]] CornerMark cornerSeen(const TestCamera& camera, const BoardSize& board, Corner corner,
                                    Hand& hand, double off);

} // namespace stavewright::photo::testing
