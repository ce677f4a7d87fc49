#pragma once
// Which staves go into which panel of a kind, so that as many panels close as the staves allow: all
// at once by a search of limited length; else one panel after the other, each with the subset of
// what is left that is least too wide, by dynamic programming over number and width in steps.
//
//   std::vector<std::vector<std::size_t>> shares = shareStaves(kind, nets, begun);

#include <optional>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

/// A panel with the staves that stay in it anyway.
struct BegunPanel {
    Nm net = 0;
    int staves = 0;
};

/// By panel, indices into `nets` (net widths). Panels that cannot be closed share the widest that
/// are left. None when the staves are too many for the programme.
[[nodiscard]] std::optional<std::vector<std::vector<std::size_t>>>
shareStaves(const Kind& kind, const std::vector<Nm>& nets, const std::vector<BegunPanel>& begun);

/// Width that the panels still lack when the staves are shared out so, supposing that every stave
/// can be trimmed. None when the staves are too many to look for it thousands of times.
[[nodiscard]] std::optional<Nm> widthMissing(const Kind& kind, const std::vector<Nm>& nets,
                                             const std::vector<BegunPanel>& begun);

} // namespace stavewright::cutting
