#include "core/cutting/Leaning.h"

#include <algorithm>

namespace stavewright::cutting {

bool allLean(const Lattice& lattice, const SectionRange& range) {
    const Nm g = lattice.step().along;
    const Nm kerf = lattice.context().problem->limits.crosscutKerf;
    const auto within = [&](Nm x) { return std::clamp(x, lattice.begin(), lattice.end()); };
    const Nm firstBegin = within(lattice.xOf(range.firstBegin));
    const Nm lastBegin = within(lattice.xOf(range.lastBegin + 1));
    // The crosscut behind a section ends in the range's cells.
    const Nm firstEnd = within(lattice.begin() + range.firstEnd * g - kerf);
    const Nm lastEnd = within(lattice.begin() + (range.lastEnd + 1) * g - kerf);
    // A frame rises by whole nanometres (SectionShape.cpp).
    constexpr double surely = 1;
    const EdgeChain& edge = lattice.model().nearEdge();
    return edge.lowest(firstBegin, lastBegin) > edge.highest(firstEnd, lastEnd) + surely ||
           edge.lowest(firstEnd, lastEnd) > edge.highest(firstBegin, lastBegin) + surely;
}

} // namespace stavewright::cutting
