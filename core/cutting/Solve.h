#pragma once
// The door of the cutting engine: request and result are plain values; the same problem, seed and
// work limit give the same solution whatever the number of threads.

#include <functional>

#include "core/base/Progress.h"
#include "core/cutting/Problem.h"

namespace stavewright::cutting {

struct Options {
    std::uint64_t seed = 1;
    double seconds = 10;   ///< cuts the search off; 0: no limit
    std::int64_t work = 0; ///< limit in counted work; 0: no limit
    int threads = 2;
};

/// Called on improvement with a complete solution; on the worker's thread.
using OnImproved = std::function<void(const Solution&)>;

/// Anytime search: a first solution at once, better ones until the limits or the stop.
[[nodiscard]] Solution solve(const Problem& problem, const Options& options,
                             const Progress& progress, const OnImproved& improved = {});

/// The frame of the section [x0, x1]: its straightened edge is the lowest line parallel to the
/// chord of the near edge that has the board's near edge wholly on or below it between x0 and x1.
[[nodiscard]] Frame sectionFrame(const Board& board, Nm x0, Nm x1);

/// Thickness a piece at `along`, `width` wide, still has; integer version of the warp formula,
/// rounded down.
[[nodiscard]] Nm reachable(const Board& board, Nm x0, Nm x1, Nm width);

} // namespace stavewright::cutting
