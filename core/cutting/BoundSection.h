#pragma once
// What a bound rests on, written out: a section, its strips and their blanks, where a lattice takes
// them to be. Whether they can be cut just so is for a SectionMenu to say; places are right to a
// step of the lattice and its slack.

#include <cstddef>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

struct BoundBlank {
    std::size_t kind = 0;
    Nm along = 0; ///< of its low end: board frame
    Nm width = 0;
    friend bool operator==(const BoundBlank&, const BoundBlank&) = default;
};

struct BoundStrip {
    Nm across = 0;                  ///< of its low edge, above the section's edge
    Nm width = 0;                   ///< as wide as this at least
    Nm widest = 0;                  ///< and at most
    std::vector<BoundBlank> blanks; ///< by ascending place
    friend bool operator==(const BoundStrip&, const BoundStrip&) = default;
};

struct BoundSection {
    Nm x0 = 0, x1 = 0;
    std::vector<BoundStrip> strips; ///< by ascending place
    friend bool operator==(const BoundSection&, const BoundSection&) = default;
};

/// Sections whose low end lies in cells [firstBegin, lastBegin] and whose far crosscut ends in
/// [firstEnd, lastEnd].
struct SectionRange {
    int firstBegin = 0, lastBegin = 0;
    int firstEnd = 0, lastEnd = 0;
    [[nodiscard]] bool isOne() const { return firstBegin == lastBegin && firstEnd == lastEnd; }
};

} // namespace stavewright::cutting
