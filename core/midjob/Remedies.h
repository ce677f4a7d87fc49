#pragma once
// Ways out for what has no place any more, the nearest first, each a sentence.

#include <string>
#include <vector>

#include "core/document/Document.h"
#include "core/layout/Plan.h"

namespace stavewright::midjob {

/// `document` is the job after the event, with its plan; `before` the one before it, with the
/// pieces that were lost still in their places.
[[nodiscard]] std::vector<std::string> remediesFor(const Document& before, const Document& document,
                                                   const std::vector<BlankPurpose>& missing,
                                                   const std::vector<BlankId>& lost);

} // namespace stavewright::midjob
