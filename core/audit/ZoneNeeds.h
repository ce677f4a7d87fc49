#pragma once
// Carries the zones of a finished part over to the blank it is made from.

#include "core/audit/Needs.h"

namespace stavewright::audit_detail {

/// Where the finished part, or each part of a multiple, lies in its blank.
struct PartInBlank {
    Length finishedLength;
    Length finishedWidth;
    Length along;  ///< of the (first) part's low end
    Length across; ///< of its near edge
    Length repeat; ///< from one part of a multiple to the next
    int parts = 1;
};

/// Adds the zones that hold on a blank of this need: the part's zones and joints (or, without
/// zones, the show face on A and the hidden face on B) on the faces that stay outside, the glue
/// face between plies, the two glued edges of staves. Zones of a panel spread over the net width of
/// each stave.
void addZones(const Document& document, const Part& part, const PartInBlank& place, Need& need,
              Report& report);

} // namespace stavewright::audit_detail
