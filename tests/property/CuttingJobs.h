#pragma once
// Small cutting problems for the property tests, drawn by rapidcheck so that a failure shrinks, and
// the ways a job can be changed whose effect on its best plan is known beforehand.

#include <rapidcheck.h>

#include <string>

#include "core/cutting/Problem.h"

namespace stavewright::cutting::property {

/// Tiny: straight near edges, sloping far edges, defects as boxes, fills, zones, at most one panel,
/// no offcuts. The best plan of such a job can be known (core/cutting/SmallJob.h).
[[nodiscard]] rc::Gen<Problem> tinyJob();

/// A small rack with all that the model knows: bent and tapered boards, fills, zones, pools of
/// several panels, groups, warp, limits of machines, offcuts, kept blanks.
[[nodiscard]] rc::Gen<Problem> smallRack();

/// Everything seen in a mirror whose line runs across the boards (ends change places), or along
/// them (edges change places); the zones of the blanks as well.
[[nodiscard]] Problem endsMirrored(Problem problem);
[[nodiscard]] Problem edgesMirrored(Problem problem);

/// One board laid the other way on the bench: end for end in its plane, or rolled over its long
/// axis. No mirror image, so the poses of the blanks must make up for it.
void turnEndForEnd(Board& board);
void rollOver(Board& board);

/// One rule of the job made stricter somehow, by chance; it stays a valid job.
void makeStricter(Problem& problem);

/// One of the three kerfs made larger.
void widenKerf(Problem& problem);

/// What to look at when a property fails.
[[nodiscard]] std::string describe(const Problem& problem);

} // namespace stavewright::cutting::property
