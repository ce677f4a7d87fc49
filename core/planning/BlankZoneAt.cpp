#include "core/planning/BlankZoneAt.h"

namespace stavewright::planning {

BoardFace faceOnBoard(const BlankZone& zone, Pose pose) {
    return pose.faceOver ? other(zone.face) : zone.face;
}

Rect zoneRect(const BlankZone& zone, const Rect& blank, Pose pose) {
    const Stretch along = zone.along.in(blank.length());
    const Stretch across = zone.across.in(blank.width());
    Rect lies{blank.x0 + along.from, blank.y0 + across.from, blank.x0 + along.to,
              blank.y0 + across.to};
    if (pose.endForEnd) {
        lies.x0 = blank.x1 - along.to;
        lies.x1 = blank.x1 - along.from;
    }
    if (pose.endForEnd != pose.faceOver) {
        lies.y0 = blank.y1 - across.to;
        lies.y1 = blank.y1 - across.from;
    }
    return lies;
}

} // namespace stavewright::planning
