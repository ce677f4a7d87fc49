#pragma once
// Locks that leave no place for something the job wants, and the smallest set of them that is to
// blame: each kept set is planned, nothing is guessed.

#include <string>
#include <vector>

#include "core/planning/Planner.h"

namespace stavewright::midjob {

struct Lock {
    BoardId board;
    SectionId section; ///< set for a section or a blank
    BlankId blank;     ///< set for a blank
    friend bool operator==(const Lock&, const Lock&) = default;
};

[[nodiscard]] std::vector<Lock> locksOf(const Plan& plan);

struct Conflict {
    std::vector<Lock> locks;           ///< together they are to blame; empty: no lock is
    std::vector<BlankPurpose> noPlace; ///< what finds none while they hold
    bool isSmallest = false;           ///< no smaller set does it; otherwise none of these is idle
    std::string sentence;              ///< empty where no lock is to blame
};

/// `each` limits every single planning. Stopped, it hands out what it has narrowed down so far.
Result<Conflict> conflictingLocks(const Document& document, const PlanOptions& each,
                                  const Progress& progress = {});

} // namespace stavewright::midjob
