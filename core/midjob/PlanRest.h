#pragma once
// The rest planned again round what is locked or cut: with everything else left where it is as far
// as that goes, or from scratch. Neither changes the document.

#include "core/planning/Planner.h"

namespace stavewright::midjob {

enum class RestMode {
    KeepPlaces, ///< what has a place keeps it; where something finds none, boards are set free one
                ///< after another, those with most waste first
    FromScratch
};

struct RestOutcome {
    PlanOutcome outcome;
    int boardsFreed = 0;  ///< of KeepPlaces: boards whose blanks were let go so that all fits
    std::string conflict; ///< which locks leave no place for what is missing, in a sentence
};

/// Ids of what stays are the same in the new plan, as are its locks.
Result<RestOutcome> planRest(const Document& document, RestMode mode, const PlanOptions& options,
                             const Progress& progress = {}, const OnBetterPlan& better = {});

/// What is different in another plan of the same job.
struct Moved {
    std::vector<BlankPurpose> moved;  ///< other board, other wood or another way round
    std::vector<BlankPurpose> gained; ///< placed only there
    std::vector<BlankPurpose> lost;   ///< placed only before
    int stays = 0;
    BoardFeet lumberMore;
    Money costsMore;
};
/// Staves of one panel are alike: one that lies as another did has not moved.
[[nodiscard]] Moved movedBetween(const Plan& before, const Plan& after);

/// "12 blanks stay, 3 move: R1, R2, S4. It costs $4.10 less and uses 1.2 bd ft less lumber."
[[nodiscard]] std::string sentenceOf(const Document& document, const Moved& moved);

} // namespace stavewright::midjob
