#pragma once
// How the panel is glued at the bench: in which pieces, in which order, with how many clamps, how
// much glue.
//
// Sources: sub-panels no wider than the planer, leaving few joints to level by hand: a magazine's
// tabletop article ("Edge Gluing the Table Top and Shelves"). Pressure spreads from a jaw at about
// 45 degrees and the fans must overlap at the first glue line: a magazine's clamping page, 2006,
// the angle itself common practice. Pressure for hardwoods of 175 to 250 psi: an adhesive maker
// ("Dealing with pressure"); 100 to 150 psi: a clamp-pressure page. Film of 6 mil and open time of
// 5 to 10 minutes: common practice, no source; the bottle says what holds.

#include <optional>
#include <string>
#include <vector>

#include "core/panels/Panels.h"
#include "core/panels/PlyPairs.h"

namespace stavewright::panels {

/// Staves glued together first: places `first` to `last`, from the near edge, counted from 0.
struct SubPanel {
    std::size_t first = 0;
    std::size_t last = 0;
    Length width;
    Length outerStave; ///< the narrower of the two at its edges
    Length clampSpacing;
    int clamps = 0;
};

struct GluePractice {
    std::vector<SubPanel> subPanels;
    /// Joints in the order of gluing, each by the place before it (0: between the first two
    /// staves). Those of one sub-panel are glued in one go; those between sub-panels one at a time,
    /// last.
    std::vector<std::size_t> jointOrder;
    std::size_t lastJoints = 0; ///< how many at the end of jointOrder lie between sub-panels
    Length lastSpacing;         ///< of the clamps for these
    int lastClamps = 0;
    bool planerTakesAll = true;   ///< false: one stave alone is wider than the planer
    Area jointArea;               ///< of one glue line
    Area glueArea;                ///< of all of them
    std::int64_t leastPounds = 0; ///< force on one glue line at leastPsi
    double millilitres = 0;       ///< glue on one face of each joint; more is squeezed out
};

/// What an adhesive maker asks of hardwoods, in pounds a square inch; what the shop goes by stands
/// in the settings.
inline constexpr int makersLeastPsi = 175;
inline constexpr int makersMostPsi = 250;

/// Not more than twice what the outer stave (of a block: ply) and a caul are wide.
[[nodiscard]] Length clampSpacing(Length outerStave, Length caul);
/// One at each end and so many between that none stands farther from the next than `spacing`.
[[nodiscard]] int clampCount(Length length, Length spacing);

/// By the machines and settings of the job; spacings are whole half inches or centimetres, down.
[[nodiscard]] GluePractice practiceFor(const Document& document, const Panel& panel);

/// The same of a laminated block, whose plies are glued over their whole faces at once.
struct BlockPractice {
    Length clampSpacing; ///< along and across
    int rows = 1;        ///< of clamps, across the block
    int clamps = 0;      ///< in all
    Area seamArea;       ///< of one glue face, as large as the rough plies are
    Area glueArea;       ///< of all seams
    std::int64_t leastPounds = 0;
    double millilitres = 0; ///< glue on one face of each seam
};
/// None when the block's part has no plies any more.
[[nodiscard]] std::optional<BlockPractice> practiceFor(const Document& document,
                                                       const Block& block);

/// What makers are warned of on this panel, one plain sentence each.
[[nodiscard]] std::vector<std::string> cautionsFor(const Panel& panel, const GluePractice& practice,
                                                   const JobInfo& info);

} // namespace stavewright::panels
