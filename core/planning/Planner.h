#pragma once
// The one door through which a plan comes about: reads the document, states the cutting problem,
// runs the engine, turns its solution into a cut tree with ids, and explains what found no place.

#include <map>
#include <optional>
#include <vector>

#include "core/base/Progress.h"
#include "core/document/Document.h"

namespace stavewright {

/// What the search weighs other than the shop's prices do, for plans that are good at something
/// else. What a plan costs is counted at the shop's prices all the same.
struct Weights {
    /// Every board foot counts alike, offcuts nothing, cuts and fills next to nothing.
    bool lumberAlone = false;
    Money knotShown = {}; ///< on top, for each knot in a show face, allowed or filled
    int cutsTimes = 1;    ///< crosscuts and rips count so many times their price
    /// Panels whose staves are all of one width: so many staves each. Where the width would leave
    /// the part's limits, and in panels that are begun, widths stay free.
    std::map<PartId, int> equalStaves = {};
    friend bool operator==(const Weights&, const Weights&) = default;
};

/// A board that must not give a part; what is kept there from the job's plan stays.
struct KeptOff {
    PartId part;
    BoardId board;
    std::optional<Stretch> along = {}; ///< x in the board frame; without it the whole board
};

struct PlanOptions {
    std::uint64_t seed = 1;
    double seconds = 10;   ///< 0: no limit
    std::int64_t work = 0; ///< 0: no limit
    int threads = 2;
    Weights weights = {};
    std::vector<KeptOff> keptOff = {};
};

struct PlanOutcome {
    Plan plan;
    double secondsToFirst = 0; ///< until the first complete plan that passed the audit's rules
    double seconds = 0;
    bool stoppedEarly = false;
};

/// Called at each improvement with a complete plan; on the worker's thread.
using OnBetterPlan = std::function<void(const Plan&)>;

/// Does not change the document. What is locked or cut in the job's plan stands in the new plan as
/// it was (core/planning/Kept.h says what goes with it); all other ids start at document.nextId.
Result<PlanOutcome> planJob(const Document& document, const PlanOptions& options,
                            const Progress& progress = {}, const OnBetterPlan& better = {});

/// Largest id that stands in the plan; the document's nextId must be above it once the plan is
/// taken in.
[[nodiscard]] std::int64_t largestId(const Plan& plan);

/// The totals a plan may claim, from document and plan. The audit recomputes them in its own way.
Result<PlanTotals> totalsOf(const Document& document, const Plan& plan);

/// The plan as one that was changed by hand: no bound is claimed for it, its totals are its own.
Result<Plan> changedByHand(const Document& document, Plan plan);

/// Free waste of the plan large enough to keep, written into its sections and strips. Boards that
/// are locked, and sections that stay as they are in the job's plan, keep what is marked on them.
void markOffcuts(const Document& document, Plan& plan, std::int64_t& nextId);

} // namespace stavewright
