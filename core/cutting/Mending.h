#pragma once
// Plans that cost less than the best one but lack a little (SectionWalks.h) are mended: the board
// after board is cut anew for what the others leave open, as long as they lack less.
//
//   mend(state, walks.plansThatLack(state), number);

#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

/// Offers what comes out, and learns every pattern that is met. `number`: another one for every
/// call.
void mend(SearchState& state, std::vector<std::vector<Pattern>> plans, std::uint64_t number);

} // namespace stavewright::cutting
