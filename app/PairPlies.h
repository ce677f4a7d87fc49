#pragma once
// The plies of laminated blocks, paired without a window: turned and exchanged so that they meet
// better, and said in words or as JSON.

#include <nlohmann/json.hpp>

#include <vector>

#include "core/base/Result.h"
#include "core/panels/PlyEdits.h"

namespace stavewright::app {

/// All blocks of one part.
struct PairedPart {
    PartId part;
    panels::PairingProposal proposal;
};

/// Pairs the plies of every part in the document.
Result<std::vector<PairedPart>> pairAllPlies(Document& document);

void printPaired(const Document& document, const PairedPart& paired);
/// Keys are permanent.
[[nodiscard]] nlohmann::json reportOf(const Document& document, const PairedPart& paired);

} // namespace stavewright::app
