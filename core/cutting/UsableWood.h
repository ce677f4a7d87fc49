#pragma once
// How much of a lattice's wood any blank can cover at all, by cell along: what lies between defects
// that no kind fits between is no use to anyone. An upper bound on the area of the blanks of a
// section, each with the kerf above it and behind it.

#include <cstdint>
#include <vector>

#include "core/cutting/Lattice.h"

namespace stavewright::cutting {

/// A stretch across that blanks can cover.
struct WoodRun {
    std::int16_t from = 0; ///< row
    std::int16_t rows = 0;
};
/// By cell along, up to Lattice::lastEnd(); by ascending row.
using UsableWood = std::vector<std::vector<WoodRun>>;

[[nodiscard]] UsableWood usableWood(const Lattice& lattice);

/// What a kind's blank takes of it, for a width of the kind's.
[[nodiscard]] double woodTaken(const Problem& problem, const Kind& kind, Nm width);

} // namespace stavewright::cutting
