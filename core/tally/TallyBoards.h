#pragma once
// Boards as a table for spreadsheets: what readTally() takes comes out of it again.

#include <string>
#include <vector>

#include "core/lumber/Board.h"
#include "core/units/LengthText.h"

namespace stavewright {

/// Comma-separated, with headings that name the units; lengths as exact decimals. Lumber stands
/// twice: by the tally rule and by the exact size. What a row cannot say - outlines that are more
/// than two widths, warp, defects - is not in it.
[[nodiscard]] std::string csvOf(const std::vector<Board>& boards, UnitSystem units);

/// "96.5", "2451.1": exact, in the unit, without a sign.
[[nodiscard]] std::string exactDecimal(Length length, UnitSystem units);

} // namespace stavewright
