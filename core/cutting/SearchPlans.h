#pragma once
// Whole plans: board by board, by a dive from the mix in fractions, by a mix of whole columns. Each
// is offered to the search.

#include "core/cutting/Part.h"
#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

/// The first plan, board by board; false when interrupted and there is one already.
bool buildWhole(SearchState& state);

/// More plans built so, each at prices drawn anew about the first guess; what mixes in fractions
/// think of many kinds says little of each. `number`: other prices for each.
void buildAtDrawnPrices(SearchState& state, std::uint64_t number);

/// Dives for whole plans from the mix in fractions.
void diveWhole(SearchState& state);

/// Ids of the best mix of whole columns that is cheaper than the best plan; may be none.
/// `nodeColumns`: nodes times columns that it may take.
[[nodiscard]] std::vector<std::size_t> bestMix(const SearchState& state, std::size_t nodeColumns);
void offerMix(SearchState& state, const std::vector<std::size_t>& ids);

/// Keeps what was met on the way.
void remember(SearchState& state, PartResult& part);

} // namespace stavewright::cutting
