#pragma once
// Private to core/midjob: what marking cuts as made does to the tree.

#include "core/midjob/Settle.h"

namespace stavewright::midjob {

[[nodiscard]] Error noPlan();
/// Null where the plan does not cut the board.
[[nodiscard]] BoardLayout* layoutIn(Plan& plan, BoardId board);
/// A section that nothing is cut from: waste, so that the cut beside it counts as made.
void addWaste(Document& after, BoardLayout& layout, Stretch along);
/// Everything before the reading is off the board too.
void cutBefore(BoardLayout& layout, Length reading);

} // namespace stavewright::midjob
