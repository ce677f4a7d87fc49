#pragma once
// Parts of the piece to be built: finished sizes, how each is made up, what its zones tolerate.

#include <optional>
#include <string>
#include <vector>

#include "core/base/Id.h"
#include "core/piece/Zone.h"

namespace stavewright {

enum class Dimension { Length, Width, Thickness };

/// One summand of a size that leans on another: +1 or -1 times that part's finished dimension.
struct LeanTerm {
    int factor = 1;
    PartId part;
    Dimension dimension = Dimension::Thickness;
    friend bool operator==(const LeanTerm&, const LeanTerm&) = default;
};

/// A finished size: a plain length, or a base plus what it leans on (leg length = height over all
/// less the top's thickness: base 29 in, terms {-1 x top thickness}).
struct Size {
    Length base;
    std::vector<LeanTerm> leans;
    friend bool operator==(const Size&, const Size&) = default;
};

/// Edge-glued from staves of free width, all of one thickness.
struct PanelMakeUp {
    Length leastStave;  ///< net width
    Length widestStave; ///< net width
    int fewestStaves = 1;
    int mostStaves = 64;
    friend bool operator==(const PanelMakeUp&, const PanelMakeUp&) = default;
};

/// Face-laminated from plies of equal thickness.
struct LaminationMakeUp {
    int plies = 2;
    friend bool operator==(const LaminationMakeUp&, const LaminationMakeUp&) = default;
};

/// How a part is made up. Neither: one board. Both: each ply is itself an edge-glued panel.
struct MakeUp {
    std::optional<LaminationMakeUp> lamination;
    std::optional<PanelMakeUp> panel;
    friend bool operator==(const MakeUp&, const MakeUp&) = default;
};

struct Part {
    PartId id;
    std::string mark;  ///< on labels and drawings, e.g. "R"; instances print as R1, R2 ...
    std::string name;  ///< e.g. "Long rail"
    std::string group; ///< piece group, e.g. "Base"; may be empty
    std::string species;
    int count = 1;
    Size length;
    Size width;
    Size thickness; ///< wanted
    std::optional<Length>
        leastThickness; ///< thinner than this is refused; without it the wanted one is
    MakeUp makeUp;
    std::vector<Zone> zones;
    int perBlank = 1; ///< short parts milled as a multiple: this many in one blank, parted last
    std::string notes;
    friend bool operator==(const Part&, const Part&) = default;
};

enum class JointKind { PocketScrew, MortiseAndTenon, Dowel, LapJoint, SlotFastener, Bore };

/// A joint paints a zone on each of its two parts.
struct JointSide {
    PartId part;
    ZoneArea area;
    friend bool operator==(const JointSide&, const JointSide&) = default;
};

struct Joint {
    JointId id;
    std::string name; ///< e.g. "rail to leg"
    JointKind kind = JointKind::MortiseAndTenon;
    std::vector<JointSide> sides; ///< one or two
    RuleSetId rules;
    friend bool operator==(const Joint&, const Joint&) = default;
};

/// Parts that should match because they come from one board.
struct MatchGroup {
    enum class Want { OneBoard, Neighbours };
    GroupId id;
    std::string name;
    Want want = Want::OneBoard;
    std::vector<PartId> parts;
    friend bool operator==(const MatchGroup&, const MatchGroup&) = default;
};

} // namespace stavewright
