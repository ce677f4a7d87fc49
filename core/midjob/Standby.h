#pragma once
// What would be done if a risky step went wrong, worked out beforehand by doing it on a copy of the
// job.

#include <optional>
#include <string>
#include <vector>

#include "core/hand/SafeWindow.h"

namespace stavewright::midjob {

/// For each side of the window beyond which something is lost: what happens one mark of the tape
/// further. Nothing for a cut without limits.
[[nodiscard]] std::vector<std::string> standbysFor(const Document& document, BoardId board,
                                                   const std::optional<hand::CutWindow>& window);

/// "If K3 opens at the planer: R2 is lost ... now R2 from board 7." For the knots in the blank that
/// its part may hold as they are, the largest first; nothing for those that would do as holes too.
[[nodiscard]] std::vector<std::string> standbysIfKnotsOpen(const Document& document, BlankId blank,
                                                           std::size_t most = 3);

} // namespace stavewright::midjob
