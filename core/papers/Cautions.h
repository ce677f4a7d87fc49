#pragma once
// What to beware of, and only what this plan raises: a page of every caution there is would not be
// read.

#include <string>
#include <vector>

#include "core/papers/CutSteps.h"

namespace stavewright::papers {

/// Stretches of a board that nobody has looked at, as orders: turn over, look, then cut.
[[nodiscard]] std::vector<std::string> lookFirst(const Document& document, const BoardCuts& cuts);

/// Cautions that cutting this board raises.
[[nodiscard]] std::vector<std::string> boardCautions(const Document& document,
                                                     const BoardCuts& cuts);

/// Cautions of the job as a whole, for the first page.
[[nodiscard]] std::vector<std::string> jobCautions(const Document& document);

} // namespace stavewright::papers
