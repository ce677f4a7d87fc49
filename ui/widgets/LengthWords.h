#pragma once
// Lengths as the window says them. In lists and drawings a size stands as on the papers: to the
// 64th where a rule shows it, else to the nearest of the job's fractions, and without a sign; where
// that leaves something out, the tip over it says the size to the last.

#include <QString>

#include "core/units/LengthText.h"

namespace stavewright::ui {

/// "3 33/64"; in a job of sixteenths "3 15/16" for 100 mm.
[[nodiscard]] QString tapeText(Length length, const LengthStyle& style);

/// A reading on the tape, no finer than one can read it: "755.5" for 755.68 mm.
[[nodiscard]] QString readingText(Length length, const LengthStyle& style);

/// "3 33/64\"", "3.5161\"", "88.93 mm": the size to the last, with its unit.
[[nodiscard]] QString exactText(Length length, const LengthStyle& style);

/// "exactly 3.9370\"" where tapeText leaves something out, else nothing.
[[nodiscard]] QString exactTip(Length length, const LengthStyle& style);

} // namespace stavewright::ui
