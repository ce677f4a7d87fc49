#pragma once
// After blanks are struck out of a section, the section can end sooner and leave more of the board
// in one piece.
//
//   strikeOut(section, problem, open);
//   tighten(problem, model, section);

#include "core/cutting/Accounts.h"

namespace stavewright::cutting {

/// Strikes out the blanks of fixed kinds beyond what is open, and strips left empty.
void strikeOut(PlacedSection& section, const Problem& problem, const Demand& open);

/// Ends the section at its last blank where that changes nothing else: the frame stays, and the
/// machines still take the length.
void tighten(const Problem& problem, const BoardModel& model, PlacedSection& section);

} // namespace stavewright::cutting
