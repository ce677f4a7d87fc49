#pragma once
// Planning as the headless commands do it: SIGINT and SIGTERM stop the search and keep the best
// plan.

#include <functional>

#include "core/audit/Audit.h"
#include "core/planning/Planner.h"

namespace stavewright::app {

struct PlannedJob {
    Document document; ///< with the plan taken in
    AuditReport audit;
    PlanOutcome outcome;
};

Result<PlannedJob> planDocument(Document document, const PlanOptions& options);

/// Runs `work` with a progress that SIGINT and SIGTERM stop.
void withSignals(const std::function<void(const Progress&)>& work);

} // namespace stavewright::app
