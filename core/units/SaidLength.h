#pragma once
// Lengths in sentences, said as the shop reads them. Audit, planner and milling say theirs here.
//
//   saidLength(26.003 in, sixteenths)            -> 26"
//   saidBeside(26.003 in, 26 in, sixteenths)     -> 26.003"

#include <string>

#include "core/units/LengthText.h"

namespace stavewright {

/// What lies between two steps of a tape is told apart by nobody: the nearest step, without a sign
/// and with its unit. A sixteenth is half a saw kerf, though: below an inch, what lies on a 64th is
/// said exactly, and what is too small for the tape in millimetres to the last, so that an overlap
/// of a nanometre never reads 0.
[[nodiscard]] std::string saidLength(Length length, const LengthStyle& style);

/// A reading on the tape, to its nearest step and with its unit: where a cut's mark lies a tenth of
/// a millimetre off an edge, the tape shows the edge.
[[nodiscard]] std::string saidReading(Length reading, const LengthStyle& style);

/// A length that the same sentence holds against `other`: where both read alike though they are
/// not, as fine as tells them apart: the finest fraction that a rule shows, then what a micrometer
/// does, else "about" before it. Said so of both, the two read in their true order.
[[nodiscard]] std::string saidBeside(Length length, Length other, const LengthStyle& style);

} // namespace stavewright
