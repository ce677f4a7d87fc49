#pragma once
// How long work in the core is watched and stopped. The worker calls `report` at each improvement
// and asks `stopRequested` at least every 50 ms; the caller may stop from any thread.

#include <cstdint>
#include <functional>
#include <stop_token>
#include <string>

namespace stavewright {

struct ProgressReport {
    std::string stage;       ///< in the maker's words, e.g. "Improving the plan"
    std::int64_t placed = 0; ///< blanks placed so far in the best plan
    std::int64_t demanded = 0;
    double seconds = 0; ///< since the start; for display only
};

struct Progress {
    std::function<void(const ProgressReport&)>
        report; ///< may be empty; called on the worker's thread
    std::stop_token stop;

    [[nodiscard]] bool stopRequested() const { return stop.stop_requested(); }
};

} // namespace stavewright
