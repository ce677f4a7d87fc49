#pragma once
// What each demand of the job costs: the job is planned as it stands, and again with one demand
// eased at a time, with the same seed and work. Nothing is guessed, and what was not planned is not
// told.
//
//   Result<DemandCosts> costs = demandCosts(document, {.each = options, .most = 12}, progress);

#include <string>
#include <vector>

#include "core/choices/Relaxations.h"
#include "core/planning/Figures.h"
#include "core/planning/Planner.h"

namespace stavewright::choices {

/// What one eased demand saves. Never less than nothing.
struct DemandCost {
    Relaxation relaxation;
    PlanFigures eased;
    int placesMore = 0;    ///< blanks and panels that find a place only with it
    Money saves;           ///< of what counts: cost, looks, groups
    BoardFeet savesLumber; ///< may be less than nothing where other things pay for it
    /// Two searches of one and the same job differ by as much, so it may save nothing.
    bool isWithinNoise = false;
    std::string sentence;
    std::string doubt; ///< a further sentence where it is within noise; else empty
};

struct DemandCosts {
    PlanFigures base;              ///< the job as it stands, the better of two searches
    Money noise;                   ///< by how much they differ
    std::vector<DemandCost> costs; ///< what saves most first; without those that save nothing
    std::size_t tried = 0;
    std::size_t toTry = 0; ///< more than tried where it was stopped
    [[nodiscard]] bool stoppedEarly() const { return tried < toTry; }
};

struct DemandWish {
    PlanOptions each;      ///< limits of each search
    std::size_t most = 12; ///< demands that are eased, the likeliest first
};

/// Two searches of the job, one for each demand, and a second with another seed for the few that
/// save most. Fails as planJob() does. `report` of the progress names the demand as its stage.
Result<DemandCosts> demandCosts(const Document& document, const DemandWish& wish,
                                const Progress& progress = {});

} // namespace stavewright::choices
