#pragma once
// Parts that are wanted from one board, as said by hand of a blank.

#include <vector>

#include "core/document/Edit.h"

namespace stavewright::hand {

/// The part and those that are wanted from one board with it; none where nothing is wanted of it.
[[nodiscard]] std::vector<PartId> wantedWith(const Document& document, PartId part);

/// From now on `other` (or all pieces of the part itself) come from one board with the part. What
/// `other` was wanted with before is not asked for any more: a part is in one group.
[[nodiscard]] Edit wantTogether(const Document& document, PartId part, PartId other);

/// The part may come from any board again.
[[nodiscard]] Edit letApart(const Document& document, PartId part);

} // namespace stavewright::hand
