#pragma once
// The document said as a cutting problem: boards with blocked regions by rule, kinds of blank,
// limits and prices in integers.

#include <map>
#include <vector>

#include "core/cutting/Problem.h"
#include "core/document/Document.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::planning {

/// Finished thickness of the parts that are made thinner than wanted.
using Thicknesses = std::map<PartId, Length>;

struct Statement {
    cutting::Problem problem;
    std::vector<BlankSpec> specs; ///< one per kind, same index
    std::vector<BoardId> boards;  ///< one per board of the problem, same index
};

/// Boards set aside, and boards of a species that no part asks for, are left out. `specs` are those
/// of the document.
[[nodiscard]] Statement state(const Document& document, const std::vector<BlankSpec>& specs,
                              const Thicknesses& thicknesses);

/// As chosen, or else as wanted; Length() when the part's size cannot be resolved.
[[nodiscard]] Length finishedThickness(const Document& document, const Part& part,
                                       const Thicknesses& thicknesses);

/// Thickness that the finished surfaces of one blank are apart: the part's, or a ply's share of it.
[[nodiscard]] Length surfacesApart(const Part& part, Length finished);

/// Where the raw end of the board must be cut off: as marked, or the shop's habit.
[[nodiscard]] Length rawEnd(Length marked, const Shop& shop);

} // namespace stavewright::planning
