#pragma once
// Why a placed blank lies on its board: the job is planned again with its part kept off that board,
// and the two plans are held against each other.

#include <optional>
#include <string>

#include "core/planning/Figures.h"
#include "core/planning/Planner.h"

namespace stavewright::choices {

struct WhyHere {
    /// `R2 lies on board 7: with no R from board 7 the plan costs $6.20 more; 4.10 bd ft more
    /// lumber.`
    std::string sentence;
    std::optional<PlanFigures> without; ///< of the plan without it; none where nothing was planned
    Money costs;                        ///< what keeping it off would count more
    bool isWithinNoise = false;         ///< two such searches differ by as much
};

/// The document's plan is the one that is held against; the same limits as it was planned with make
/// a fair answer. Two searches, with this seed and the next. Fails as planJob() does, when there is
/// no plan, and when the blank is not in it.
Result<WhyHere> whyHere(const Document& document, BlankId blank, const PlanOptions& options,
                        const Progress& progress = {});

/// The blank of the plan whose label on the wood this is ("R2", "T1-3").
[[nodiscard]] std::optional<BlankId> blankLabelled(const Document& document,
                                                   const std::string& label);

} // namespace stavewright::choices
