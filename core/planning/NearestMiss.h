#pragma once
// Says of a blank that found no place what came nearest: which board, where, what was in the way
// and by how much, and what would free it. It says no more than was looked at: where the limits
// ended the looking, the sentence says so.

#include <stop_token>
#include <string>

#include "core/document/Document.h"
#include "core/planning/Statement.h"

namespace stavewright::planning {

struct ExplainLimits {
    std::int64_t steps = 2'000'000; ///< counted, for all reasons together; the same every time
    double seconds = 0;             ///< 0: no limit
    std::stop_token stop;
};

/// Sentences for each entry of plan.unplaced, written into it. The plan was made from the
/// statement.
void explainUnplaced(const Document& document, const Statement& statement, Plan& plan,
                     const ExplainLimits& limits = {});

} // namespace stavewright::planning
