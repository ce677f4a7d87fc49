#pragma once
// Says of a blank that found no place what came nearest: which board, where, what was in the way
// and by how much.

#include <string>

#include "core/document/Document.h"
#include "core/planning/Statement.h"

namespace stavewright::planning {

/// One sentence for each entry of plan.unplaced, written into it.
void explainUnplaced(const Document& document, const std::vector<BlankSpec>& specs,
                     const Thicknesses& thicknesses, Plan& plan);

} // namespace stavewright::planning
