#pragma once
// What the maker does to a panel, each as one Edit whose inverse gives the identical document back.
// Order and locks are the arrangement's; faces and ends are the poses of blanks in the plan, so
// that the audit judges what will be glued.

#include "core/document/Edit.h"
#include "core/panels/Panels.h"

namespace stavewright::panels {

/// The staves in this order and these poses; locks stay with their staves. Refused when the panel
/// is glued, when a locked stave would move, or when a stave would lie where the rules forbid it.
Result<Edit> arranged(const Document& document, const Panel& panel, const glueup::Order& order);

/// Two panels at once; `order` runs over both as in sideBySide().
Result<Edit> arrangedTogether(const Document& document, const Panel& first, const Panel& second,
                              const glueup::Order& order);

enum class Turn { EndForEnd, FaceOver };
/// The stave at this place, from the near edge, counted from 0.
Result<Edit> turned(const Document& document, const Panel& panel, std::size_t place, Turn turn);
Result<Edit> swapped(const Document& document, const Panel& panel, std::size_t a, std::size_t b);
/// The stave at `from` goes to `to`; those between move up.
Result<Edit> moved(const Document& document, const Panel& panel, std::size_t from, std::size_t to);
Result<Edit> locked(const Document& document, const Panel& panel, std::size_t place, bool locked);

/// Rings, centre seam and the panel that it matches; staves are left alone.
struct PanelWishes {
    RingWish rings = RingWish::Alternate;
    bool noCentreSeam = false;
    std::optional<PanelName> matches;
};
[[nodiscard]] PanelWishes wishesOf(const Panel& panel);
Result<Edit> wished(const Document& document, const Panel& panel, const PanelWishes& wishes);

} // namespace stavewright::panels
