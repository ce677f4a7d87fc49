#pragma once
// What would be done if a risky step went wrong, worked out beforehand by doing it on a copy of the
// job.

#include <optional>
#include <string>
#include <vector>

#include "core/hand/BoardLimits.h"

namespace stavewright::midjob {

/// For each side of the window beyond which something is lost: what happens one mark of the tape
/// further. Nothing for a cut without limits.
[[nodiscard]] std::vector<std::string> standbysFor(const Document& document, BoardId board,
                                                   const std::optional<hand::CutWindow>& window);

/// "If K3 opens at the planer: R2 is lost ... now R2 from board 7." For the knots in the blank that
/// its part may hold as they are, the largest first; nothing for those that would do as holes too.
[[nodiscard]] std::vector<std::string> standbysIfKnotsOpen(const Document& document, BlankId blank,
                                                           std::size_t most = 3);

/// The windows of all cuts left on the board, and standbys for what is risky there: the largest
/// knots whose opening would lose a part. A stop ends it early with what is
/// known. `windows` are of the same document.
[[nodiscard]] hand::BoardLimits limitsOf(const Document& document, const hand::SafeWindows& windows,
                                         BoardId board, const std::stop_token& stop = {});

/// The same for every board that the plan cuts.
[[nodiscard]] std::vector<hand::BoardLimits> limitsOf(const Document& document,
                                                      const std::stop_token& stop = {});

} // namespace stavewright::midjob
