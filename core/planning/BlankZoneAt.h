#pragma once
// Where a zone of a blank comes to lie when the blank is placed.

#include "core/layout/Plan.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::planning {

/// The board's face on which the zone of a blank in this pose lies.
[[nodiscard]] BoardFace faceOnBoard(const BlankZone& zone, Pose pose);

/// The zone in the frame in which the blank's rectangle is given. Turning end for end runs both
/// axes backwards, rolling face over runs y backwards.
[[nodiscard]] Rect zoneRect(const BlankZone& zone, const Rect& blank, Pose pose);

} // namespace stavewright::planning
