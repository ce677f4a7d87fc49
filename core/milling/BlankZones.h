#pragma once
// Moves the zones of a finished part, and those its joints paint on it, into the frame of its
// blank.

#include <vector>

#include "core/milling/BlankSpec.h"

namespace stavewright {

/// Where the finished part, or the several parts of a multiple, lie in the blank.
struct PartInBlank {
    Length partLength;
    Length partWidth;
    Length firstAt; ///< x where the first part begins
    Length pitch;   ///< from one part of a multiple to the next
    int parts = 1;
    Length blankWidth;
    bool outerA = true; ///< face A of the blank becomes face A of the part, not a glue face
    bool outerB = true;
    /// For a stave, whose place in the panel is not known yet: what its edge joints take, both
    /// edges together. Its zones are spread over its whole net width.
    std::optional<Length> jointAllowance;
};

[[nodiscard]] std::vector<BlankZone> blankZones(const Document& document, const Part& part,
                                                const PartInBlank& place);

} // namespace stavewright
