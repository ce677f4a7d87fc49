#pragma once
// What happens to one board, saw by saw, with the numbers that are read there. Every number comes
// straight from the plan's cut tree; the drawing and the step list both read it here, so that they
// cannot differ.
//
// Crosscuts are read on a tape from the board's datum end. A cut is counted as Plan.h counts it:
// two sections exactly one kerf apart share a cut, otherwise each end of a section is a cut of its
// own.

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "core/document/Document.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::papers {

/// On which side of the marked line the blade takes its kerf; the keeper lies on the other.
enum class Blade { TowardsDatum, AwayFromDatum };

struct CrosscutMark {
    Length reading; ///< from the datum end of the board, or of the strip
    Blade blade = Blade::AwayFromDatum;
    std::optional<std::size_t> ends;   ///< the section or blank that ends here
    std::optional<std::size_t> starts; ///< the section or blank that starts here
    Length startReading; ///< where that one starts: past the kerf when the cut is shared
    bool isMade = false; ///< the reading is where it was made
};

/// One pass at the rip fence; the width is between fence and blade.
///
/// A sliver of waste before a strip is never ripped off between fence and blade: the strip is
/// ripped with it (WithSliver), then its other edge, straight now, goes to the fence, and the
/// sliver falls free beyond the blade (OffSliver). Common practice, no source.
struct RipPass {
    enum class Kind { Strip, Waste, Kept, WithSliver, OffSliver };
    Kind kind = Kind::Strip;
    Length width;
    std::size_t strip = 0; ///< which it cuts, or before which the waste or offcut lies
    std::string keeps{};   ///< for Kind::Kept: the offcuts in what is ripped off, "Keep 1"
    bool isMade = false;
    Length fence{}; ///< the edge that runs along the fence, across the section
    Length over{};  ///< for Kind::Strip: wider than the strip, by what is too little for a pass

    /// Where the blade's kerf begins, on the far side of what is set between fence and blade.
    [[nodiscard]] Length cutsAt() const {
        return kind == Kind::OffSliver ? fence - width : fence + width;
    }
};

struct TrimPass {
    std::string label; ///< of the blank
    Length width;      ///< it is ripped down to
    bool isMade = false;
};

struct BlankLine {
    const Blank* blank = nullptr;
    const Part* part = nullptr;
    std::string label;
    Length length;
    Length width;
    Length thickness; ///< that it is planed to before it goes on
};

/// An offcut that is worth keeping.
struct KeptLine {
    const Offcut* offcut = nullptr;
    std::string name; ///< "Keep 1", counted over the board
};

struct StripCuts {
    const Strip* strip = nullptr;
    std::string name; ///< "7a-1"
    std::vector<CrosscutMark> crosscuts;
    bool isSquared = false; ///< the first of them only squares the end that the tape hooks on
    Length hook; ///< what that takes, or what the end is out of square: readings count from there
    std::vector<TrimPass> trims;
    std::vector<BlankLine> blanks;
    std::vector<KeptLine> kept;
};

/// The line that straightens a section's near edge.
struct EdgeLine {
    Length atDatumSide; ///< how far the line stands in from the rough edge at the section's
                        ///< datum-side end
    Length atFarSide;
    Length deepest; ///< most that it takes off anywhere
};

struct SectionCuts {
    const Section* section = nullptr;
    std::string name; ///< "7a": the board's mark and a letter; "waste" if it was cut off as such
    bool isWaste = false;
    EdgeLine edge;
    Length planeTo; ///< the thickest of its blanks decides
    std::vector<RipPass> rips;
    std::vector<StripCuts> strips;
    std::vector<KeptLine> kept; ///< beside the strips, or the section itself
    /// A section that is only kept or wasted goes over no machine.
    [[nodiscard]] bool hasBlanks() const {
        return std::any_of(strips.begin(), strips.end(),
                           [](const StripCuts& strip) { return !strip.blanks.empty(); });
    }
};

struct BoardCuts {
    const Board* board = nullptr;
    const BoardLayout* layout = nullptr;
    std::vector<CrosscutMark> crosscuts;
    std::vector<SectionCuts> sections;
    /// Where the piece begins that is crosscut next, when the datum end is cut off it already.
    std::optional<Length> freshEnd;
};

/// `layout` must be one of document.plan's boards, and every id in it known: the audit has passed.
[[nodiscard]] BoardCuts cutsOf(const Document& document, const std::vector<BlankSpec>& specs,
                               const BoardLayout& layout);

/// Thickness that blanks of this spec are planed to, when the plan has chosen a thinner part.
[[nodiscard]] Length thicknessToPlane(const Document& document, const BlankSpec& spec);

} // namespace stavewright::papers
