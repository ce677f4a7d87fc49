#pragma once
// The zones a part is judged by before its joints add theirs: its own, or the shop's defaults.

#include <vector>

#include "core/document/Document.h"

namespace stavewright {

/// The part's zones; of a part that has none, face A as a show face and face B as a hidden face,
/// as far as the shop has those rule sets. Defaults have no id yet.
[[nodiscard]] std::vector<Zone> zonesOrDefaults(const Shop& shop, const Part& part);

} // namespace stavewright
