#pragma once
// Face-laminated blocks: which plies meet with which faces. Plies cup away from their heart as they
// dry. With the hearts outside, the edges of both plies press towards the glue line; with the
// hearts on the glue line they pull away from it and the seam may open at its edges (from the
// direction of cup in the Wood Handbook, Fig. 4-3; the advice is common practice, no source).
// Hearts the same way do not oppose at all: the block goes hollow as one.

#include <string>
#include <vector>

#include "core/audit/Audit.h"
#include "core/document/Document.h"

namespace stavewright::panels {

struct BlockPly {
    std::string label; ///< "L2a"
    std::string boardMark;
    BoardId board;
    BlankId blank;
    int heartUp = 0; ///< +1 towards face A of the part, -1 towards face B, 0 unknown
    BlankPurpose purpose;
    Pose pose;
    CutState state = CutState::Planned;
    // Chalk marks of what is open on its two faces and wants a fill.
    std::vector<std::string> openUp = {}; ///< towards face A of the part
    std::vector<std::string> openDown = {};
};

enum class PlyMeeting { Unknown, BarksMeet, HeartsMeet, SameWay };

struct Block {
    PartId part;
    int instance = 1;
    std::string label;               ///< "L2"
    std::vector<BlockPly> plies;     ///< from face A
    std::vector<PlyMeeting> seams;   ///< between ply i and i + 1
    bool canBookMatch = false;       ///< all plies of one board
    bool isGlued = false;            ///< at least one of them is
    std::vector<std::string> advice; ///< plain sentences
};

/// Blocks all of whose plies are in the plan, each ply one blank; in document order.
/// `fills` are the audit's; without them nothing is said about what is filled.
[[nodiscard]] std::vector<Block> blocksOf(const Document& document, const std::vector<Fill>& fills);
[[nodiscard]] std::vector<Block> blocksOf(const Document& document);

} // namespace stavewright::panels
