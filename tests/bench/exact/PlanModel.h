#pragma once
// The least cost of a job on a grid, by a mixed-integer programme over every plan of the pattern
// family: sections along each board, strips across each section, fillings of each strip.
//
//   std::optional<ExactPlan> plan = bestByModel(*GridJob::on(problem, unit));

#include <optional>

#include "GridJob.h"

namespace stavewright::cutting::exact {

struct ExactPlan {
    Solution solution; ///< its value is counted in whole money from what the model chose
    Cost unplaced = 0; ///< the part of it that stands for what is not placed
    int columns = 0;
};

/// Nothing when Cbc gave up.
[[nodiscard]] std::optional<ExactPlan> bestByModel(const GridJob& job);

} // namespace stavewright::cutting::exact
