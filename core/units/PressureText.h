#pragma once
// Pressure on a glue line as shown and typed. A job holds whole pounds a square inch; where it is
// in millimetres they are shown in hundredths of a newton per square millimetre, each of which
// comes back as typed (a pound a square inch is less than one of them).

#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/Result.h"
#include "core/units/LengthText.h"

namespace stavewright {

inline constexpr int leastTypedPsi = 10;
inline constexpr int mostTypedPsi = 1000;

/// "psi", "N/mm²"
[[nodiscard]] std::string pressureUnit(UnitSystem units);
/// The number alone: "100", "0.7"
[[nodiscard]] std::string formatPressure(int psi, UnitSystem units);
/// Hundredths of a newton per square millimetre, as shown.
[[nodiscard]] std::int64_t hundredthsOfNewton(int psi);
/// Whole pounds a square inch from "150", "0,7", "150 psi", "0.7 N/mm2", "0.7 MPa"; a number
/// without a unit is in the unit of `units`.
Result<int> parsePressure(std::string_view text, UnitSystem units);

} // namespace stavewright
