#pragma once
// The thinner thicknesses that are tried, one after the other, when the wanted one leaves pieces
// without a place.

#include <vector>

#include "core/planning/Statement.h"

namespace stavewright::planning {

/// From just under the wanted thickness down to the least, a few steps on a round grid (1/32 in or
/// half a millimetre); empty when the part may not be thinner than wanted.
[[nodiscard]] std::vector<Length> thinnerSteps(const Document& document, const Part& part);

} // namespace stavewright::planning
