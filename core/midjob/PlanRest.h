#pragma once
// The rest planned again round what is locked or cut: with everything else left where it is as far
// as that goes, or from scratch. Neither changes the document.

#include "core/midjob/Moves.h"
#include "core/planning/Planner.h"

namespace stavewright::midjob {

enum class RestMode {
    KeepPlaces, ///< what has a place keeps it; where something finds none, boards are set free one
                ///< after another, those with most waste first
    FromScratch
};

struct RestOutcome {
    PlanOutcome outcome;
    int boardsFreed = 0;   ///< of KeepPlaces: boards whose blanks were let go so that all fits
    std::int64_t work = 0; ///< of KeepPlaces: counted over all searches
    std::string conflict;  ///< which locks leave no place for what is missing, in a sentence
};

/// Ids of what stays are the same in the new plan, as are its locks.
Result<RestOutcome> planRest(const Document& document, RestMode mode, const PlanOptions& options,
                             const Progress& progress = {}, const OnBetterPlan& better = {});

} // namespace stavewright::midjob
