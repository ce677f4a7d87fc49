#pragma once
// Most value from a few equal boards, copies limited. The engine has no notion of a most value;
// leaving a piece out costs its value, the boards are free, so what the engine saves of the whole
// value is the value it makes.

#include "Measure.h"
#include "published/Sheet.h"

namespace stavewright::cutting::bench {

/// In the better direction of the first cuts, `seconds` for each.
[[nodiscard]] Row mostValue(const Sheet& sheet, int boards, const std::string& name,
                            const BenchOptions& options, double seconds);

} // namespace stavewright::cutting::bench
