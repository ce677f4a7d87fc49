#pragma once
// Other plans of the job on the command line: looked for, printed side by side, one of them taken.

#include <nlohmann/json_fwd.hpp>

#include "app/CommandLine.h"
#include "app/Planning.h"
#include "core/choices/DemandCosts.h"
#include "core/choices/WhyHere.h"

namespace stavewright::app {

/// Beside the plan of the job, each with the limits of the command.
Result<choices::Alternatives> alternativesTo(const PlannedJob& job, const PlanCommand& command);

/// Makes the plan that is best at `aim` the job's.
void take(const choices::Alternatives& found, choices::Aim aim, PlannedJob& job);

[[nodiscard]] nlohmann::json reportOf(const choices::Alternatives& found, const PlannedJob& job);
void print(const choices::Alternatives& found, const PlannedJob& job);

/// What the demands of the job cost, each planned for a quarter of the command's limits.
Result<choices::DemandCosts> demandsOf(const PlannedJob& job, const PlanCommand& command);
[[nodiscard]] nlohmann::json reportOf(const choices::DemandCosts& costs);
void print(const choices::DemandCosts& costs, const PlannedJob& job);

/// Why the blank that the command names lies where it lies; refuses a label that is not in the
/// plan.
Result<choices::WhyHere> whyOf(const PlannedJob& job, const PlanCommand& command);

} // namespace stavewright::app
