#pragma once
// A plan that was changed by hand, made whole again: boards in rack order, what found no place,
// offcuts, totals; and the edit that puts it into the document.

#include <set>
#include <string>
#include <vector>

#include "core/document/Edit.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::hand {

/// `touched` are the boards that changed; on them the offcuts are marked anew. Ids that stand in
/// neither document nor plan begin at `nextId`. What is newly unplaced gets `reason`; without one,
/// it was laid back by hand.
Result<Edit> finished(const Document& document, Plan plan, const std::set<BoardId>& touched,
                      std::int64_t nextId, const std::string& reason = {});

/// Lists what the job wants and the plan does not hold; entries that stay keep their reason, new
/// ones get `reason`.
void listUnplaced(const std::vector<BlankSpec>& specs, Plan& plan, const std::string& reason);

} // namespace stavewright::hand
