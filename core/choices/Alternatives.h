#pragma once
// Other good plans for the same job: each found by planning it with other weights, audited, and
// held against the cheapest.
//
//   Result<Alternatives> found = findAlternatives(document, {.each = options}, progress);
//
// The same job, seed and work give the same plans.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/planning/Figures.h"
#include "core/planning/Planner.h"

namespace stavewright::choices {

enum class Aim {
    Cheapest, ///< at the shop's prices, with what knots on show count
    LeastLumber,
    FewestKnots, ///< in show faces
    FewestSetUps
};
inline constexpr std::array allAims = {Aim::Cheapest, Aim::LeastLumber, Aim::FewestKnots,
                                       Aim::FewestSetUps};

/// "Cheapest", "Least lumber", "Fewest knots on show", "Fewest set-ups"
[[nodiscard]] std::string nameOf(Aim aim);
/// For programs and options: "cheapest", "least-lumber", "fewest-knots", "fewest-set-ups"
[[nodiscard]] std::string keyOf(Aim aim);

struct Alternative {
    std::vector<Aim> bestAt; ///< not empty; of one plan that is best at several things, all of them
    Plan plan;               ///< audited clean
    PlanFigures figures;
    std::string against; ///< what it gives up against the first one; empty for that one itself
};

struct Alternatives {
    std::vector<Alternative> plans; ///< the cheapest first, then in the order of Aim
    bool stoppedEarly = false;
};

struct AlternativesWish {
    PlanOptions each; ///< limits for each aim by itself; the weights in it are not used
    /// The cheapest plan where it is known, planned by the program with these limits; otherwise it
    /// is looked for first.
    std::optional<Plan> cheapest = {};
};

/// Plans that are no better than another in anything, and doubles, are left out. Stopped, it hands
/// out what it has. Fails as planJob() does.
Result<Alternatives> findAlternatives(const Document& document, const AlternativesWish& wish,
                                      const Progress& progress = {});

/// "Cheapest", "Cheapest, and of least lumber"
[[nodiscard]] std::string titleOf(const Alternative& alternative);

} // namespace stavewright::choices
