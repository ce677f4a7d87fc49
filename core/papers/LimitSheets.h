#pragma once
// The papers with the safe windows of their cuts. They take longer to work out than the pages
// themselves, so whoever prints works them out beforehand (midjob/Standby.h) and may leave boards
// out.

#include <vector>

#include "core/hand/BoardLimits.h"
#include "core/papers/PageModel.h"

namespace stavewright::papers {

/// As makePapers() of PageModel.h; boards that `limits` names say on their sheets how far each cut
/// may land off, and the standbys.
Result<std::vector<Page>> makePapers(const Document& document, const PaperOptions& options,
                                     const TextMeasure& measure,
                                     const std::vector<hand::BoardLimits>& limits);

} // namespace stavewright::papers
