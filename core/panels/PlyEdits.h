#pragma once
// What the maker does to the plies of laminated blocks, each as one Edit whose inverse gives the
// identical document back: turning a ply, giving two plies each other's place, and pairing all
// plies of a part at once.

#include "core/document/Edit.h"
#include "core/panels/PanelEdits.h"
#include "core/panels/PlyPairs.h"

namespace stavewright::panels {

/// Which ply of which block; both counted from 0.
struct PlySpot {
    std::size_t block = 0;
    std::size_t ply = 0;
    friend bool operator==(const PlySpot&, const PlySpot&) = default;
};

/// Refused when the block is glued or a defect would come to lie where the part does not allow it.
Result<Edit> plyTurned(const Document& document, const std::vector<Block>& blocks, PlySpot spot,
                       Turn turn);

/// The two plies change places, of one block or of two blocks of one part; each keeps its pose.
Result<Edit> pliesExchanged(const Document& document, const std::vector<Block>& blocks, PlySpot a,
                            PlySpot b);

/// How the plies of all blocks of a part meet. Bark sides that meet are best, hearts that meet
/// leave the seam's edges open, hearts the same way do not oppose; plies of one board can be
/// book-matched (common practice, no source).
struct PairingFigures {
    int sameWay = 0;     ///< seams
    int heartsMeet = 0;  ///< seams
    int barksMeet = 0;   ///< seams
    int ofTwoBoards = 0; ///< blocks
    friend bool operator==(const PairingFigures&, const PairingFigures&) = default;
};
[[nodiscard]] PairingFigures pairingOf(const std::vector<Block>& blocks, PartId part);

struct PairingProposal {
    PairingFigures before;
    PairingFigures after;
    std::optional<Edit> edit; ///< none: nothing better was found
};

/// Turns and exchanges plies of the part's blocks as long as that makes them meet better: best
/// found. Blocks that are glued stay.
Result<PairingProposal> pairedPlies(const Document& document, PartId part);

} // namespace stavewright::panels
