#pragma once
// Two ways of planning without a search, to measure the engine against; each gets every chance.
//
// Plain greedy: the longest blank first, into the board where it fits with least left over, never
// over a forbidden defect; a new board only when no begun one will do. It tries every section, pose
// and normal position, and the best single stave width per panel.
//
// Careful maker: panels first, from the widest sound lumber, each stave as wide as the board gives
// where it is cut through the worst knots; then the other parts by length from what is left, new
// boards last.

#include "core/cutting/Problem.h"

namespace stavewright::cutting::bench {

[[nodiscard]] Solution plainGreedy(const Problem& problem);
[[nodiscard]] Solution carefulMaker(const Problem& problem);

} // namespace stavewright::cutting::bench
