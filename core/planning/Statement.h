#pragma once
// The document said as a cutting problem: boards with blocked regions by rule, kinds of blank,
// limits and prices in integers.

#include <map>
#include <set>
#include <vector>

#include "core/cutting/Problem.h"
#include "core/document/Document.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/Planner.h"

namespace stavewright::planning {

/// Finished thickness of the parts that are made thinner than wanted.
using Thicknesses = std::map<PartId, Length>;

/// Sections of the job's plan that the new plan takes over as they are (Kept.h).
struct Kept {
    std::vector<BoardLayout> boards; ///< in the plan's order; without the sections that may go
};

/// What one kind of the problem still has to become: a blank, or a panel that may have been begun.
struct WantedPiece {
    int number = 0;                ///< among the blanks or panels of the spec, from 0
    std::set<int> keptStaves = {}; ///< of a panel
    Length keptNet = {};           ///< what they add to its width
};

struct Statement {
    cutting::Problem problem;
    // One per kind, same index. A panel that kept staves have begun is a kind of its own.
    std::vector<BlankSpec> specs;
    std::vector<std::vector<WantedPiece>> pieces;
    std::vector<std::vector<int>> zoneRules; ///< rule of each zone of the spec; -1: no such rules
    std::vector<BoardId> boards;             ///< one per board of the problem, same index
    Kept kept;
    std::vector<KeptOff> keptOff;
};

/// How the statement departs from the document.
struct Steering {
    Weights weights = {};
    std::vector<KeptOff> keptOff = {};
};

/// Boards set aside, and boards of a species that no part asks for, are left out unless something
/// on them is kept. `specs` are those of the document. What is kept stands in the problem as fixed,
/// each piece with the whole stretch of its section.
[[nodiscard]] Statement state(const Document& document, const std::vector<BlankSpec>& specs,
                              const Thicknesses& thicknesses, const Kept& kept = {},
                              const Steering& steering = {});

/// As chosen, or else as wanted; Length() when the part's size cannot be resolved.
[[nodiscard]] Length finishedThickness(const Document& document, const Part& part,
                                       const Thicknesses& thicknesses);

/// Thickness that the finished surfaces of one blank are apart: the part's, or a ply's share of it.
[[nodiscard]] Length surfacesApart(const Part& part, Length finished);

/// Where the raw end of the board must be cut off: as marked, or the shop's habit.
[[nodiscard]] Length rawEnd(Length marked, const Shop& shop);

} // namespace stavewright::planning
