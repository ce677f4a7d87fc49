#pragma once
// From the engine's solution to a cut tree of the document: ids, purposes, what found no place.

#include "core/cutting/Problem.h"
#include "core/layout/Plan.h"
#include "core/planning/Statement.h"

namespace stavewright::planning {

/// What the statement keeps stands in the plan as it was; ids of all else run from `nextId` on, in
/// the order of the tree. Entries of the unplaced list have no reason
/// yet; offcuts and totals are not filled in.
[[nodiscard]] Plan assemble(const Statement& statement, const cutting::Solution& solution,
                            std::int64_t& nextId);

} // namespace stavewright::planning
