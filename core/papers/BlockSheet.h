#pragma once
// The glue-up pages of laminated blocks: which plies meet with which faces, drawn from the end.

#include "core/audit/Audit.h"
#include "core/papers/PageBook.h"

namespace stavewright::papers {

/// Nothing where no block has all its plies in the plan.
void addBlockSheets(PageBook& book, const Document& document, const std::vector<Fill>& fills);

} // namespace stavewright::papers
