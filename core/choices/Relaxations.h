#pragma once
// What the job demands, and how each demand could be eased by a little: one edit for each, that the
// maker may make as it stands. Only looks, thickness, staves, allowances and sizes are eased; what
// joints and glued edges ask is left alone, because it keeps the piece together.

#include <string>
#include <vector>

#include "core/document/Edit.h"

namespace stavewright::choices {

struct Relaxation {
    std::string words; ///< `allowing filled knots up to 1" on the hidden face of T`
    Edit edit;
    PartId part; ///< not set where it is the whole shop's
};

/// The likeliest first, so many at most, of every sort some: by how much wood on the rack each
/// would open to how much of the piece. Deterministic. That order guesses; what a relaxation saves
/// is found by planning with it (DemandCosts.h). The document must be valid.
[[nodiscard]] std::vector<Relaxation> relaxationsOf(const Document& document, std::size_t most);

} // namespace stavewright::choices
