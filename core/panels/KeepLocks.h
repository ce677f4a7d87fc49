#pragma once
// What the layout holds, glue-up does not change: a blank that is locked there, or whose section or
// board is, keeps its ends, its faces and what it is cut for.

#include "core/document/Document.h"

namespace stavewright::panels {

/// A board that went back to the rack is locked as used up; what was cut from it lies on the bench
/// and may be turned.
[[nodiscard]] bool isHeld(const BoardLayout& layout, const Section& section, const Blank& blank);

/// The plan as changedByHand() makes it. Refused, with their names, where blanks that are held
/// would lie another way or become something else.
Result<Plan> changedKeepingLocks(const Document& document, Plan plan);

} // namespace stavewright::panels
