#pragma once
// Locks of a plan: which there are, how they are called, and which of them another plan of the same
// job does not keep. Whatever changes a plan may ask here; a lock is only taken off by the maker.

#include <string>
#include <vector>

#include "core/document/Document.h"

namespace stavewright::hand {

struct Lock {
    BoardId board;
    SectionId section; ///< set for a section or a blank
    BlankId blank;     ///< set for a blank
    friend bool operator==(const Lock&, const Lock&) = default;
};

[[nodiscard]] std::vector<Lock> locksOf(const Plan& plan);
[[nodiscard]] std::vector<Lock> locksOf(const BoardLayout& layout);

/// Locks of `before` whose blanks lie elsewhere in `after`, lie another way, give another part, are
/// gone, or have new ones beside them. Cuts that were made, and what they took off a blank's
/// allowance, break no lock.
[[nodiscard]] std::vector<Lock> locksBroken(const Plan& before, const Plan& after);
[[nodiscard]] std::vector<Lock> locksBroken(const BoardLayout& before, const BoardLayout& after);

/// "R2 on board 3", "the section from 12 to 40 of board 3", "board 3".
[[nodiscard]] std::string nameOf(const Document& document, const Lock& lock);
/// The same of several: "R2 on board 3 and board 5".
[[nodiscard]] std::string namesOf(const Document& document, const std::vector<Lock>& locks);

/// The plan with none of the locks but those in `kept`.
[[nodiscard]] Plan withLocks(Plan plan, const std::vector<Lock>& kept);

} // namespace stavewright::hand
