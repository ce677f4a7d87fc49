#pragma once
// Sections whose near edge ends higher, or lower, than it begins: their frame is turned, and both
// ends of every row in them must be cut square to it, whatever the row is (CutCost.cpp counts so).

#include "core/cutting/BoundSection.h"
#include "core/cutting/Lattice.h"

namespace stavewright::cutting {

/// Every section of the range leans. `range`: in cells of the lattice.
[[nodiscard]] bool allLean(const Lattice& lattice, const SectionRange& range);

} // namespace stavewright::cutting
