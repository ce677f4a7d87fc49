#pragma once
// Locks that leave no place for something the job wants, and the smallest set of them that is to
// blame: each kept set is planned, nothing is guessed.

#include <string>
#include <vector>

#include "core/hand/Locks.h"
#include "core/planning/Planner.h"

namespace stavewright::midjob {

using hand::Lock;
using hand::locksOf;

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
