#pragma once
// What happened in the shop, as one change of the job: a cut is made, a knot comes up, a blank is
// spoiled. What is done stays, the rest finds a place again at once, and what that costs is said.
// Each is one Edit whose inverse gives the identical document back.
//
//   Result<ShopEvent> event = midjob::spoiled(document, blank, {.time = now, .why = "dropped"});
//   if (event) session.edit(tr("R2 is spoiled"), event.value().edit);

#include <string>
#include <vector>

#include "core/document/Edit.h"

namespace stavewright::midjob {

/// What the log keeps beside the fact itself.
struct Note {
    std::int64_t time = 0; ///< seconds since 1970-01-01 UTC; 0 when unknown
    std::string why;       ///< the maker's words; may be empty
    /// Locks that what happened leaves no way to keep are taken off; otherwise they are named, and
    /// nothing changes.
    bool unlock = false;
};

struct ShopEvent {
    Edit edit; ///< boards, plan and log together
    Plan plan; ///< the plan after it, audited clean but for what was wrong before
    std::vector<BlankPurpose> lost;    ///< pieces that were cut and no longer give their part
    std::vector<BlankPurpose> turned;  ///< pieces that still give it when they lie another way
    std::vector<BlankPurpose> moved;   ///< that come from somewhere else now
    std::vector<BlankPurpose> missing; ///< that have no place now, and had one
    BoardFeet lumberLost; ///< rough wood of what is lost, at its boards' nominal thickness
    Money moneyLost;      ///< at its boards' prices
    BoardFeet lumberMore; ///< lumber that the plan uses more than before; may be negative
    Money costsMore;      ///< the same in money, of the whole plan
    std::vector<std::string> remedies; ///< one sentence for each way out for what is missing
    std::string sentence;              ///< all of it in words
};

} // namespace stavewright::midjob
