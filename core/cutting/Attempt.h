#pragma once
// One attempt at a better plan: a few boards of the best one are freed and filled again, some that
// it leaves alone among them.

#include "core/cutting/Part.h"
#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

struct Attempt {
    Solution solution;
    PartResult part; ///< what was met on the way, and the work
    bool made = false;
};

/// The same number tries the same from the same plan.
[[nodiscard]] Attempt attempt(const SearchState& state, std::uint64_t number);

} // namespace stavewright::cutting
