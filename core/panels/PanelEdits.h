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

/// Nothing that was moved since the maker arranged it, or said that it stands well, is left to look
/// at; one that was never arranged has nothing to hold it against.
[[nodiscard]] bool standsAsArranged(const Panel& panel);

/// Two panels at once; `order` runs over both as in sideBySide(). A stave that stands in the other
/// panel now becomes that one's in the plan, with the number of the one that left; where it lies on
/// its board does not change. Refused also when a panel would not get its width.
Result<Edit> arrangedTogether(const Document& document, const Panel& first, const Panel& second,
                              const glueup::Order& order);

/// One stave of each of two panels of one part for the other; ends and faces stay with the wood.
Result<Edit> exchanged(const Document& document, const Panel& first, std::size_t a,
                       const Panel& second, std::size_t b);

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
