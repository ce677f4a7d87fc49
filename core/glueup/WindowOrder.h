#pragma once
// Polishes a long arrangement: every run of a few neighbouring places is put into the exactly best
// order and poses for what stands on either side of it, by the same dynamic programming over sets
// that ExactOrder.h uses for whole panels.

#include <stop_token>

#include "core/glueup/Scoring.h"

namespace stavewright::glueup {

/// Runs of `places` places, over and over, until no run can be bettered. Terms that do not add up
/// are left out of each table; a run is changed only where the whole total becomes less.
[[nodiscard]] Order polished(const Scoring& scoring, Order order, int places,
                             const std::stop_token& stop = {});

} // namespace stavewright::glueup
