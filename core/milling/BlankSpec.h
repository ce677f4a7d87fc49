#pragma once
// From finished part to rough blank: what the saw must deliver, and the sum line by line that says
// why.

#include <optional>
#include <string>
#include <vector>

#include "core/document/Document.h"

namespace stavewright {

/// One line of "why this size?".
struct SumLine {
    Dimension dimension = Dimension::Length;
    Length amount;    ///< what this line adds; the first line of a dimension is the finished size
    Length after;     ///< running size
    std::string text; ///< e.g. "trim both ends after planing: snipe, 1 in an end"
    friend bool operator==(const SumLine&, const SumLine&) = default;
};

/// What a blank's own zone asks: a region of the blank and a rule set. Blank frame: x along, y
/// across from the near edge, face A the part's face A. Offsets are already moved from the part
/// into the blank.
struct BlankZone {
    BoardFace face = BoardFace::A;
    AnchoredStretch along;
    AnchoredStretch across;
    RuleSetId rules;
    std::string name;   ///< for findings: "pocket end of R"
    bool shows = false; ///< a show face: knots allowed here still count against the plan's looks
    friend bool operator==(const BlankZone&, const BlankZone&) = default;
};

/// Widths of the staves of one panel.
struct StavePool {
    Length leastRough;  ///< rough width
    Length widestRough; ///< rough width, never wider than the jointer
    Length step;
    Length jointAllowance; ///< rough width less this is the net width in the panel
    Length netWanted;      ///< the net widths must add up to at least this (panel and its trim)
    Length netMost;        ///< and at most to this
    int fewest = 1;
    int most = 64;
    friend bool operator==(const StavePool&, const StavePool&) = default;
};

/// A kind of blank. For fixed blanks `count` blanks of this size are wanted; for a stave pool
/// `count` panels, each filled by staves of this spec.
struct BlankSpec {
    PartId part;
    int ply =
        0; ///< from 1 in a lamination; plies that differ in their zones have specs of their own
    int count = 1;
    int partsPerBlank = 1;
    Length length; ///< rough
    Length width;  ///< rough; for a stave pool the least
    Length partAt; ///< the finished part's low end (of a multiple the first one's); as far from the
                   ///< high end
    std::optional<StavePool> staves;
    Length thicknessWanted; ///< that the section must reach when it is faced and planed
    Length thicknessLeast;
    Length thickestRough; ///< a thicker board would be planed away too far; from the wanted
                          ///< thickness, because wood that warp takes is not the maker's to save
    std::vector<BlankZone> zones;
    std::vector<SumLine> sums;
    friend bool operator==(const BlankSpec&, const BlankSpec&) = default;
};

/// The specs of every part, in document order, plies ascending. Pure function of the document.
Result<std::vector<BlankSpec>> blankSpecs(const Document& document);

/// The spec a placed blank belongs to; null when there is none.
[[nodiscard]] const BlankSpec* specOf(const std::vector<BlankSpec>& specs,
                                      const BlankPurpose& purpose);

/// Rough thickness a section must reach for the part to come out `finished` thick: the spec's
/// thicknessWanted when it is made thinner than wanted.
[[nodiscard]] Length thicknessToReach(const Document& document, const Part& part, Length finished);

/// What the blank (of a stave pool: the panel) number `index` becomes, from 0 to count - 1; of a
/// multiple its first part. The stave is left 0.
[[nodiscard]] BlankPurpose purposeOf(const BlankSpec& spec, int index);

} // namespace stavewright
