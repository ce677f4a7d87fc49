#pragma once
// The best plan there is, for jobs so small that everything can be tried: on each board the
// cheapest pattern of every yield (BoardTable), then the cheapest choice of patterns.
//
//   std::optional<SmallPlan> plan = solveSmall(context, models, demand, 20'000'000, threads,
//                                              interrupt);
//
// Nothing when the job is not small: many yields or places, boards whose near edge is not straight,
// pools of several panels, worth of offcuts. What it finds is the best of the pattern family where
// defects are boxes; along a slanting outline a place may lie that only a push both ways would
// find.

#include <optional>

#include "core/cutting/Accounts.h"
#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

struct SmallPlan {
    std::vector<Pattern> patterns;
    Cost value = 0; ///< as Accounts counts it
};

/// Adds the steps taken to `work`, also when it gives up; each board may take `mostWork`.
[[nodiscard]] std::optional<SmallPlan> solveSmall(const Context& context,
                                                  const std::vector<const BoardModel*>& models,
                                                  const Demand& demand, std::int64_t mostWork,
                                                  int threads, const Interrupt& interrupt,
                                                  std::int64_t& work);

} // namespace stavewright::cutting
