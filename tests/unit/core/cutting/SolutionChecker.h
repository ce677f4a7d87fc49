#pragma once
// Judges solutions of the cutting engine without using anything of the engine: plain geometry on
// the problem's own polygons, rectangle by rectangle, and a second count of what is claimed.
//
//   for (const std::string& fault : checkSolution(problem, solution)) { ADD_FAILURE() << fault; }

#include <string>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting::testing {

/// One sentence per fault; empty when the solution holds.
[[nodiscard]] std::vector<std::string> checkSolution(const Problem& problem,
                                                     const Solution& solution);

/// Value counted again: touched boards, cuts, fills and penalties, less the offcuts' worth (which
/// is taken from the caller, because what counts as an offcut is the engine's own notion).
struct Count {
    Cost boards = 0;
    Cost fills = 0;
    Cost cuts = 0;
    Cost penalties = 0;
    int placed = 0;
    int demanded = 0;
    std::int64_t touchedBoardFeetMillionths = 0;
};
[[nodiscard]] Count countSolution(const Problem& problem, const Solution& solution);

} // namespace stavewright::cutting::testing
