#pragma once
// The one door to an arrangement: staves in, the best order found out, and whether it is proved.
//
//   Arrangement result = arrange(problem, given);

#include <optional>
#include <stop_token>

#include "core/glueup/Scoring.h"

namespace stavewright::glueup {

struct ArrangeLimits {
    std::uint64_t seed = 1;
    std::int64_t moves = 1'400'000; ///< of the search
    std::int64_t work = 400'000;    ///< partial arrangements looked at for the proof
    /// Wall clock; the best so far is handed over then. None: the same limits give the same order.
    std::optional<double> seconds = std::nullopt;
};

enum class Proved { Best, BestFound };

struct Arrangement {
    Order order;
    Score score;
    Proved proved = Proved::BestFound;
    bool stoppedEarly = false;
};

/// `given` is the arrangement as it stands; the result is never worse where `given` is allowed.
/// Deterministic for the same limits.
[[nodiscard]] Arrangement arrange(const ArrangeProblem& problem, const Order& given,
                                  const ArrangeLimits& limits = {},
                                  const std::stop_token& stop = {});

/// Every stave once, in its panel or where they are exchanged in either, locks and rules kept.
[[nodiscard]] bool isAllowed(const Scoring& scoring, const Order& order);

} // namespace stavewright::glueup
