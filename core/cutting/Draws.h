#pragma once
// More patterns for walks and mixes to choose from: the best at prices that are drawn at random.
//
//   drawForRest(state, number, 16);
//   drawColumns(state, number, 16);

#include "core/cutting/Random.h"
#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

/// Of every board, so many times. What is drawn depends on `number` and the seed.
void drawColumns(SearchState& state, std::uint64_t number, int draws);

/// Each time a few boards of the best plan are taken to be empty: what these and a few others would
/// give of what is lacking then. A plan is made whole by patterns that are best at no prices, since
/// they must not make more than is still wanted.
void drawForRest(SearchState& state, std::uint64_t number, int draws);

/// Prices up to so many percent off.
[[nodiscard]] Values drawnPrices(const Values& about, std::int64_t off, Random& random);

} // namespace stavewright::cutting
