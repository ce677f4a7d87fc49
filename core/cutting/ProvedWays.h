#pragma once
// Ways that may end with proof, for jobs of which they make something: single boards, boards
// without anything to avoid, small jobs. What they prove does not count groups. Each offers its
// plan, and returns true when no better one exists.

#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

/// The best filling of a single board without anything to avoid.
bool fillClearBoard(SearchState& state);

/// Plans for clear boards many of which are equal.
bool mixEqualBoards(SearchState& state);

/// The best plan there is, where the job is small enough.
bool trySmall(SearchState& state);

} // namespace stavewright::cutting
