#pragma once
// Job files as cutting problems, stated by the planner itself at the wanted thicknesses.

#include <string>
#include <vector>

#include "core/base/Result.h"
#include "core/cutting/Problem.h"

namespace stavewright::cutting::bench {

struct JobInstance {
    std::string name;
    Problem problem;
};

/// Every job file in the folder, by name.
Result<std::vector<JobInstance>> loadJobs(const std::string& folder);

} // namespace stavewright::cutting::bench
