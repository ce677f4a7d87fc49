#pragma once
// The glue-up page of each panel that has its staves in the plan.

#include "core/audit/Audit.h"
#include "core/papers/Flow.h"
#include "core/papers/PageBook.h"

namespace stavewright::papers {

void addGlueUpSheets(PageBook& book, const Document& document, const std::vector<Fill>& fills);

} // namespace stavewright::papers
