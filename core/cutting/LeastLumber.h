#pragma once
// The least lumber that any plan of the family takes: board feet of the boards touched, offcuts
// counted for nothing, fills and cuts for free. A proof of its own, with prices in board feet,
// since the cheapest plan need not take the least lumber.
//
//   std::optional<std::int64_t> least = leastBoardFeet(problem, options, progress);

#include "core/cutting/Solve.h"

namespace stavewright::cutting {

/// Millionths of a board foot that no plan which places everything can do with less than; none
/// while nothing is proved. Ends by itself, or when a limit or the stop cuts it off.
[[nodiscard]] std::optional<std::int64_t>
leastBoardFeet(const Problem& problem, const Options& options, const Progress& progress);

} // namespace stavewright::cutting
