#pragma once
// Solves a problem with the clock and the memory watched, and lets the independent checker look at
// the solution.

#include <string>

#include "BenchOptions.h"
#include "PanelFigures.h"
#include "Row.h"
#include "core/cutting/Problem.h"

namespace stavewright::cutting::bench {

/// The gap that Row::toGoal waits for; share of the value.
inline constexpr double nearGap = 0.03;

struct Measured {
    Row row; ///< value in money, board feet, counts, times; faults of the checker
    Solution solution;
    PanelFigures panels;
};

/// `seconds` is the limit of the search.
[[nodiscard]] Measured measureSolve(const Problem& problem, const BenchOptions& options,
                                    double seconds, int seed);

/// Adds how far the board feet of the plan can be from the least, by a proof of its own that takes
/// `seconds` at most; not in the times told.
void addBoardFeetGap(const Problem& problem, const BenchOptions& options, double seconds,
                     Measured& measured);

/// Adds both baselines: their lumber and the engine's saving, which stays empty where one of them
/// left something unplaced, because then they did different jobs.
void addBaselines(const Problem& problem, Measured& measured);

/// Blanks and panels that a solution leaves.
[[nodiscard]] int unplacedIn(const Solution& solution);

} // namespace stavewright::cutting::bench
