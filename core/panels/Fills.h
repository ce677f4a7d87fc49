#pragma once
// What is filled before the glue is open, and what after. Loose knots are locked before they are
// milled; what lies on a glue face has to be level before it is glued; what shows is filled once
// the block or panel has been milled, before the last pass, which levels it (the order: common
// practice, no source; fixing loose knots before machining: a furniture maker's article on epoxy).

#include <string>
#include <vector>

#include "core/audit/Audit.h"
#include "core/panels/Panels.h"

namespace stavewright::panels {

/// Loose knots, holes and bark pockets: what is filled. Pictures call them by their chalk marks.
[[nodiscard]] bool opensUp(DefectKind kind);

/// What is filled on the faces of a blank, by chalk marks in the board's order.
struct OpenSpots {
    std::vector<std::string> onA; ///< of the board
    std::vector<std::string> onB;
};
/// As the audit counts `fills`: what the finished part shows or is glued on. A knot that lies
/// wholly in wood that is trimmed away is filled nowhere.
[[nodiscard]] OpenSpots openSpots(const Board& board, BlankId blank,
                                  const std::vector<Fill>& fills);

/// "L2a K3, K4 and L2b K7": pieces with what opens on them; empty where nothing does.
using MarkedPieces = std::vector<std::pair<std::string, std::vector<std::string>>>;
[[nodiscard]] std::string listOf(const MarkedPieces& pieces);

/// About the fills of a panel, on either face, in sentences; empty where nothing is open.
[[nodiscard]] std::string fillSentence(const Document& document, const Panel& panel,
                                       const std::vector<Fill>& fills);

} // namespace stavewright::panels
