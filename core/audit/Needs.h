#pragma once
// What the document asks of the saw, worked back by the audit itself from finished sizes and the
// shop's chains: one Need for each kind of blank.
//
// A finished part lies in its blank offset by half of what the chain adds along at each end, and by
// half of what it adds across at each edge.

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "core/audit/Report.h"
#include "core/document/Document.h"

namespace stavewright::audit_detail {

/// A region of a blank and the rules that hold there. Blank frame: x along from its low end, y
/// across from its near edge, face A is the part's face A. `across` is anchored because staves
/// differ in width.
struct NeededZone {
    BoardFace face = BoardFace::A;
    Stretch along;
    AnchoredStretch across;
    const RuleSet* rules = nullptr;
    std::string name; ///< "top face", "rail to leg joint"
};

/// Terms of an edge-glued panel.
struct NeededStaves {
    Length gluedWidth; ///< that the net widths must add up to, at least
    Length mostWidth;  ///< and at most
    Length jointing;   ///< rough width less net width of one stave
    Length leastNet;
    Length widestNet;
    int fewest = 1;
    int most = 1;
};

struct Need {
    const Part* part = nullptr;
    int ply = 0; ///< 0 when the part is not laminated
    int plies = 1;
    int partsPerBlank = 1; ///< instances run 1, 1 + partsPerBlank, ...
    Length length;         ///< rough
    Length width;          ///< rough; of no meaning for staves
    std::optional<NeededStaves> staves;
    Length leastLength;       ///< finished: a blank cut shorter than this is lost
    Length leastWidth;        ///< finished; of no meaning for staves
    Length thickness;         ///< that must be left when the wood is first faced
    Length thicknessOfWanted; ///< the same if the part is made as thick as wanted
    Length finalThickness;    ///< of this blank's wood in the finished part
    Volume finishedPart;      ///< finished length x width x thickness of one part
    std::vector<NeededZone> zones;

    [[nodiscard]] bool wantsInstance(int instance) const {
        return instance >= 1 && instance <= part->count && (instance - 1) % partsPerBlank == 0;
    }
    /// Parts that the blank of this instance holds; the last multiple may be short of some.
    [[nodiscard]] int partsIn(int instance) const {
        return std::min(partsPerBlank, part->count - instance + 1);
    }
    [[nodiscard]] int blanksPerPart() const {
        return (part->count + partsPerBlank - 1) / partsPerBlank;
    }
};

/// Needs of every part in document order, plies ascending, made at the plan's thicknesses. What is
/// wrong with the choices of thickness, with sizes or with rule sets goes into the report.
[[nodiscard]] std::vector<Need> needsOf(const Document& document, const Plan& plan, Report& report);

/// The need that a purpose belongs to by its part and ply; null when there is none.
[[nodiscard]] const Need* needFor(const std::vector<Need>& needs, const BlankPurpose& purpose);

} // namespace stavewright::audit_detail
