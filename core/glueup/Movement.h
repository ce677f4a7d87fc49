#pragma once
// How a stave moves when its moisture content changes: across its width, through its thickness, and
// out of flat.
//
// Width and thickness follow the Wood Handbook (FPL-GTR-190, 2010), chapter 13, Eq. 13-2:
//   change = size x C x (moisture later - moisture now),
// with C_T across plain-sawn and C_R across quarter-sawn wood (Table 13-5, 6 to 14 %). Between the
// two, strain turns with the ring angle as any strain does: C = C_T cos^2 + C_R sin^2.
//
// Cup follows from the same two coefficients. Wood that shrinks by e_R along every radius and by
// e_T along every ring moves, round the pith, r -> r (1 + e_R) and angle -> angle (1 + e_T - e_R).
// A straight line that passes the pith at distance h then bends by -(e_T - e_R) x atan(x/h), x
// being measured from the foot of the pith's perpendicular. Over a narrow stave that is the
// curvature
//   2 (C_T - C_R) change cos^3(angle) / radius,
// its depth over a plain-sawn stave (C_T - C_R) change width^2 / (4 radius). On drying the edges
// move away from the heart: the face towards the bark goes hollow (Wood Handbook, Fig. 4-3: the
// characteristic distortion of flat, square and round pieces; the figure from memory).

#include <cstdint>
#include <optional>
#include <vector>

#include "core/lumber/Board.h"
#include "core/wood/Species.h"

namespace stavewright::glueup {

/// The rings seen at the end of a stave, at the middle of its width and thickness.
struct RingData {
    HeartSide heart = HeartSide::Unknown;
    std::int32_t angleTenths = 0; ///< between rings and face, in tenths of a degree, 0 to 900
    Length radius;                ///< of the ring there; zero when unknown
    friend bool operator==(const RingData&, const RingData&) = default;
};

/// Rings flat to the face, at a slant, or upright, as angles: the middles of what the trade calls
/// plain-sawn (under 30 degrees), rift (30 to 60) and quarter-sawn (over 60). The bounds of
/// quarter-sawn wood (45 to 90 in the grading rules, 60 to 90 in flooring) differ between sources.
[[nodiscard]] std::int32_t angleTenthsOf(Sawn sawn);

struct Movement {
    std::int32_t radialMillionths = 0;
    std::int32_t tangentialMillionths = 0;
    std::int32_t changeTenths = 0; ///< moisture later less now, in tenths of a percent; drying < 0
    friend bool operator==(const Movement&, const Movement&) = default;
};

/// Eq. 13-2: positive when it grows.
[[nodiscard]] Length changeOf(Length size, std::int32_t coefficientMillionths,
                              std::int32_t changeTenths);
/// Eq. 13-2 with the coefficient at the ring angle.
[[nodiscard]] Length widthChange(Length width, const RingData& rings, const Movement& movement);
[[nodiscard]] Length thicknessChange(Length thickness, const RingData& rings,
                                     const Movement& movement);

/// Depth by which the stave's face A goes hollow (negative: round) over its width, when it is free
/// to move. Zero when the heart side or the radius is unknown.
[[nodiscard]] Length forecastCup(Length width, const RingData& rings, const Movement& movement);

/// A stave in the panel: its width and its own cup with the panel's show face up (hollow > 0).
struct CupPart {
    Length width;
    Length cup;
};

/// The panel's surface as a chain of arcs that go over into one another without a kink at the
/// joints, as if every edge stayed square to its face (a cautious picture: it is the most that
/// staves can add up to).
struct CupForecast {
    Length depth;   ///< greatest distance from the straight line between the panel's long edges
    Length overall; ///< signed, at the place of the greatest; hollow show face > 0
};
[[nodiscard]] CupForecast panelCup(const std::vector<CupPart>& staves);

} // namespace stavewright::glueup
