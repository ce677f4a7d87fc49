#pragma once
// The bench's figures in words, for window and papers alike: in the units of the job.

#include <string>

#include "core/panels/GlueBench.h"

namespace stavewright::panels {

/// "at least 100 psi: 9300 lb on each joint", "at least 0.69 N/mm²: 41.4 kN on each joint"
[[nodiscard]] std::string pressureText(const Document& document, std::int64_t pounds);
/// "175 to 250 psi", "1.2 to 1.7 N/mm²": what an adhesive maker asks of hardwoods.
[[nodiscard]] std::string makersPressureText(const JobInfo& info);
/// "1.9 fl oz on one face of each joint, 558 sq in of joints in all"
[[nodiscard]] std::string glueText(double millilitres, Area area, const JobInfo& info);
/// "8 clamps, at most 13" apart"
[[nodiscard]] std::string clampsText(int clamps, Length spacing, const JobInfo& info);

/// The lines about a block, plain sentences; empty when it has no figures.
[[nodiscard]] std::vector<std::string> benchLines(const Document& document, const Block& block);

} // namespace stavewright::panels
