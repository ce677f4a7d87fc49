#pragma once
// Where a blank may lie across a section once its place along it is chosen. A defect that a zone
// meets becomes an obstacle in v; a fixed width needs only the intervals its low edge must avoid, a
// free width needs both edges, because a zone may hang on either.
//
//   std::vector<Obstacle> found;
//   pieces.obstacles(pose, u0, found);
//   Nm v0 = lowestPlace(found, width, from, top);   // -1: nowhere

#include <vector>

#include "core/cutting/BlankPose.h"
#include "core/cutting/SectionShape.h"

namespace stavewright::cutting {

/// The blank [v0, v1] meets it when low < below and high > above, where low is v0 (or v1 for a zone
/// whose low side hangs on the blank's high edge) and high is v1 (or v0).
struct Obstacle {
    Nm below = 0;
    Nm above = 0;
    bool lowOnHigh = false;
    bool highOnLow = false;
    Cost fill = -1; ///< below 0: forbidden
    bool isFill = false;
    int defect = -1;

    friend bool operator==(const Obstacle&, const Obstacle&) = default;
    [[nodiscard]] bool isHard() const { return fill < 0; }
    [[nodiscard]] bool meets(Nm v0, Nm v1) const {
        return (lowOnHigh ? v1 : v0) < below && (highOnLow ? v0 : v1) > above;
    }
};

/// Obstacles of one option, in an array that many options share.
struct ObstacleRange {
    const Obstacle* first = nullptr;
    const Obstacle* last = nullptr;
    [[nodiscard]] const Obstacle* begin() const { return first; }
    [[nodiscard]] const Obstacle* end() const { return last; }
};

/// The pieces of defects that reach into a section, in its frame.
class SectionPieces {
  public:
    SectionPieces(const BoardModel& model, const SectionShape& shape, std::size_t rules);

    /// Appends what a blank in this pose with its low end at u0 can meet.
    void obstacles(const BlankPose& pose, Nm u0, std::vector<Obstacle>& found) const;

    /// Appends the places of the low end at which one of the blank's zones just clears a piece.
    void clearPlaces(const BlankPose& pose, std::vector<Nm>& places) const;

  private:
    std::vector<std::vector<Piece>> m_pieces; ///< by 2 * rule + onB
    bool m_turned = false;
};

/// No hard obstacle is met.
[[nodiscard]] bool isClear(ObstacleRange obstacles, Nm v0, Nm v1);

struct FillCount {
    Cost cost = 0;
    int fills = 0;
};
/// What the defects met must cost; each defect once.
[[nodiscard]] FillCount fillsOf(ObstacleRange obstacles, Nm v0, Nm v1);

/// Lowest v0 >= from with [v0, v0 + width] clear and not above top; -1 when there is none. With
/// `avoidFills` places that cost a fill are passed over too.
[[nodiscard]] Nm lowestPlace(ObstacleRange obstacles, Nm width, Nm from, Nm top, bool avoidFills);

/// Widest free width with its low edge at v0, on the pool's steps and no wider than `most`; 0 when
/// even the least is not clear. With `avoidFills` it keeps clear of what could be filled too.
[[nodiscard]] Nm widestFrom(ObstacleRange obstacles, const Kind& pool, Nm v0, Nm most,
                            bool avoidFills);
/// The same with its high edge at v1.
[[nodiscard]] Nm widestUpTo(ObstacleRange obstacles, const Kind& pool, Nm v1, Nm most,
                            bool avoidFills);

/// A free width at its lowest place, as wide as it can be there.
struct WidePlace {
    Nm v0 = -1;
    Nm v1 = -1;
};
[[nodiscard]] WidePlace lowestWidePlace(ObstacleRange obstacles, const Kind& pool, Nm from, Nm top,
                                        Nm widest, bool avoidFills);

/// Least width of the pool's steps that is clear with its low edge at v0, up to `widest`; 0 when
/// none is. Wider can be clear where narrower is not: a knot may lie in the middle of a wide stave,
/// but not under its edge.
[[nodiscard]] Nm narrowestAt(ObstacleRange obstacles, const Kind& pool, Nm v0, Nm widest);

/// Range of the piece across within the open slab (u0, u1); false when it does not reach in.
[[nodiscard]] bool acrossWithin(const Piece& piece, double u0, double u1, double& low,
                                double& high);

} // namespace stavewright::cutting
