#pragma once
// What a rule set says to a defect at the depth of the finished surface. The one place where the
// planner judges defects: the cutting problem's blocks and the plan's fills both come from here.

#include <optional>

#include "core/lumber/Board.h"
#include "core/piece/Zone.h"

namespace stavewright::planning {

enum class Ruling { Free, Fill, Forbidden };

/// By kind and size; a defect above the largest allowed size is forbidden.
[[nodiscard]] Ruling rulingFor(const RuleSet& rules, const Defect& defect);

/// Knots, holes and bark pockets disturb the grain round them.
[[nodiscard]] bool disturbsGrain(DefectKind kind);

/// The region the rule set looks at: the defect's outline in the plane of the finished surface
/// under `face`, grown by the rule set's halo; nothing where the defect does not reach that plane.
/// Wood is taken off both faces alike, so the planes lie (thinnest - finished) / 2 below the faces.
[[nodiscard]] std::optional<Polygon> judgedRegion(const RuleSet& rules, const Defect& defect,
                                                  const Board& board, BoardFace face,
                                                  Length finished);

/// Box round the defect's marks on both faces and the grain that the rules take to be disturbed
/// round it: at no depth the defect is judged outside it.
[[nodiscard]] Rect reachOf(const RuleSet& rules, const Defect& defect);

} // namespace stavewright::planning
