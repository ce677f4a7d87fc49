#pragma once
// Other plans of the job on the command line: looked for, printed side by side, one of them taken.

#include <nlohmann/json_fwd.hpp>

#include "app/CommandLine.h"
#include "app/Planning.h"

namespace stavewright::app {

/// Beside the plan of the job, each with the limits of the command.
Result<choices::Alternatives> alternativesTo(const PlannedJob& job, const PlanCommand& command);

/// Makes the plan that is best at `aim` the job's.
void take(const choices::Alternatives& found, choices::Aim aim, PlannedJob& job);

[[nodiscard]] nlohmann::json reportOf(const choices::Alternatives& found, const PlannedJob& job);
void print(const choices::Alternatives& found, const PlannedJob& job);

} // namespace stavewright::app
