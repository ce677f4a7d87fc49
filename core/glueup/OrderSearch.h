#pragma once
// Search for a good arrangement where the exact tables would be too large, and for the terms they
// leave out: staves are swapped, moved, turned and runs of them reversed, at first freely, later
// only where it helps (simulated annealing), and the outcome is polished (WindowOrder.h); from
// several beginnings.

#include <cstdint>
#include <stop_token>

#include "core/glueup/Scoring.h"

namespace stavewright::glueup {

/// The order in which the staves were given, locks kept, each in the first pose the rules allow.
[[nodiscard]] Order firstOrder(const Scoring& scoring);

struct SearchLimits {
    std::uint64_t seed = 1;
    std::int64_t moves = 1'400'000; ///< tried in all
    int beginnings = 12;
};

/// The same limits give the same order. Never worse than `begin`.
[[nodiscard]] Order searchOrder(const Scoring& scoring, const Order& begin,
                                const SearchLimits& limits, const std::stop_token& stop = {});

} // namespace stavewright::glueup
