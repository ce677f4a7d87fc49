#pragma once
// After something happened: which blanks still stand, which are lost, where the others go.

#include <set>

#include "core/midjob/ShopEvent.h"

namespace stavewright::midjob {

/// What is known to have happened, before anything finds its place again.
struct Happened {
    Document after;                  ///< boards and plan as they are now; totals do not count yet
    std::set<BoardId> touched;       ///< boards whose wood or cuts changed
    std::vector<BoardId> replaced;   ///< of these the boards that differ as boards
    std::vector<BlankId> lost = {};  ///< of the document before; taken out of `after` already
    std::string what;                ///< for the log and the first sentence: "K7 found on board 3."
    std::set<BlankId> measured = {}; ///< whose size it says already
};

/// What is cut and still good stays as it is; cut pieces on which the audit now finds something
/// are tried in the other poses and are lost when none will do; what is only planned goes
/// elsewhere. What misses a place is laid into wood that is cut already where it fits, then on
/// begun boards, then on fresh ones; nothing else moves. A lock that this would break is named
/// instead, or taken off where the note allows it.
Result<ShopEvent> settle(const Document& before, Happened happened, const Note& note);

/// Wood that is looked at for a blank: of sections that are cut already only, or all there is.
enum class LayIn { CutWood, AllWood };

/// Lays what the plan lists as unplaced and `wanted` names; returns how many blanks were laid.
int layMissing(Document& document, const std::vector<BlankPurpose>& wanted,
               LayIn wood = LayIn::AllWood);

[[nodiscard]] Error refused(std::string message);

} // namespace stavewright::midjob
