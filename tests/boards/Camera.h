#pragma once
// A camera whose every property is known: what it shows of a board is worked out by geometry of its
// own (a pinhole and a lens in space), not by the code under test.

#include <vector>

#include "core/photo/Straighten.h"

namespace stavewright::boards {

struct Camera {
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
    [[nodiscard]] photo::Pixels shows(double boardX, double boardY) const;
    struct Place {
        double x = 0;
        double y = 0;
    };
    /// The place of the board's plane that it shows here (inches).
    [[nodiscard]] Place sees(photo::Pixels at) const;
};

/// Repeatable places at which a hand marks something, at most `off` pixels from where it is.
class Hand {
  public:
    explicit Hand(std::uint64_t seed)
        : m_state(seed * 2654435761U + 1) {}
    [[nodiscard]] double between(double low, double high);
    [[nodiscard]] photo::PhotoPoint mark(photo::Pixels at, double off);

  private:
    std::uint64_t m_state;
};

/// Root of the mean square of how far the map is off, and the most, over marks all over the part of
/// the board between two places (inches).
struct MapError {
    double rms = 0;
    double worst = 0;
};
MapError errorOf(const photo::PhotoMap& map, const Camera& camera, const photo::BoardSize& board,
                 double from, double to);

[[nodiscard]] Length inches(double n);
[[nodiscard]] photo::CornerMark cornerSeen(const Camera& camera, const photo::BoardSize& board,
                                           photo::Corner corner, Hand& hand, double off);
/// The four corners of the board as a hand marks them.
[[nodiscard]] photo::PhotoControls cornersSeen(const Camera& camera, const photo::BoardSize& board,
                                               Hand& hand, double off);
/// Marks `count` places on either long edge, evenly between two places along the board (inches).
void markEdges(photo::PhotoControls& controls, const Camera& camera, const photo::BoardSize& board,
               Hand& hand, double from, double to, int count, double off);

/// From where a camera in a hand may look at a board (inches).
struct Stand {
    double leastX = 0;
    double mostX = 0;
    double leastY = 0;
    double mostY = 0;
    double nearest = 0;
    double farthest = 0;
};
/// A little askew, differently each time.
[[nodiscard]] Camera handHeld(Hand& hand, const Stand& stand);

} // namespace stavewright::boards
