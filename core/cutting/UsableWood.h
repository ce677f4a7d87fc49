#pragma once
// How much of a lattice's wood any blank can cover at all, by cell along: what lies between defects
// that no kind fits between is no use to anyone. An upper bound on the area of the blanks of a
// section, each with the kerf above it and behind it.

#include <vector>

#include "core/cutting/Lattice.h"

namespace stavewright::cutting {

/// Square nanometres by cell along, up to Lattice::lastEnd().
[[nodiscard]] std::vector<double> usableWood(const Lattice& lattice);

/// What a kind's blank takes of it, for a width of the kind's.
[[nodiscard]] double woodTaken(const Problem& problem, const Kind& kind, Nm width);

} // namespace stavewright::cutting
