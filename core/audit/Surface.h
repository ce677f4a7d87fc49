#pragma once
// Where a defect shows once wood has been planed away, and how much disturbed grain counts with it;
// worked out from the definitions of a defect (core/lumber/Defect.h) and of a halo
// (core/piece/Zone.h).

#include <optional>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/Defect.h"
#include "core/piece/Zone.h"

namespace stavewright::audit_detail {

/// The mark of the defect in the plane `depth` below face A of wood `thickness` thick; nothing
/// where it does not reach. A defect that is marked on both faces, is not through, and reaches the
/// plane from both is taken for all that lies between its marks.
[[nodiscard]] std::optional<Polygon> markAtDepth(const Defect& defect, Length thickness,
                                                 Length depth);

/// The size that rules compare with: longer axis of an ellipse, otherwise the longer side of the
/// box round the mark; the larger of the two faces.
[[nodiscard]] Length ruleSize(const Defect& defect);

struct Margin {
    Length along;
    Length across;
    [[nodiscard]] bool isNothing() const { return along == Length() && across == Length(); }
};
/// Disturbed grain round knots, knot holes and bark pockets; nothing round other defects.
[[nodiscard]] Margin marginOf(const Defect& defect, const Halo& halo);

} // namespace stavewright::audit_detail
