#pragma once
// How wide the panels of a plan are: the net widths of the staves it places, added up.

#include <map>
#include <vector>

#include "core/layout/Plan.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::planning {

/// What a blank belongs to: of a stave its panel, of any other blank itself.
[[nodiscard]] inline BlankPurpose wholeOf(BlankPurpose purpose) {
    purpose.stave = 0;
    return purpose;
}

/// Net width that the stave's wood gives its panel.
[[nodiscard]] Length netWidthOf(const Blank& stave, const StavePool& pool);

/// Net width of the panel's staves that the plan places.
[[nodiscard]] Length netWidthOf(const Plan& plan, const StavePool& pool, const BlankPurpose& panel);

/// Everything that the plan places a blank of, panels with their net width so far, others with
/// nothing.
[[nodiscard]] std::map<BlankPurpose, Length> netWidthsIn(const Plan& plan,
                                                         const std::vector<BlankSpec>& specs);

} // namespace stavewright::planning
