#pragma once
// The cuts of a plan that are not made yet, in the order of the board sheet, and where each is
// read: a crosscut on the tape from the board's datum end, a rip from the section's straightened
// edge, a second crosscut on the tape from the datum end of its strip.
//
//   for (const CutRef& cut : cutsOn(document, board)) ... *markOf(document, board, cut)

#include <optional>
#include <string>
#include <vector>

#include "core/document/Document.h"

namespace stavewright::hand {

enum class CutKind { Crosscut, Rip, Second };

/// A cut of the plan: one end of a section, one edge of a strip, or one end of a blank inside its
/// strip.
struct CutRef {
    SectionId section;
    std::optional<StripId> strip = {}; ///< of a rip and of a second crosscut
    bool high = true;                  ///< the far end, or the far edge
    std::optional<BlankId> blank = {}; ///< of a second crosscut
    [[nodiscard]] CutKind kind() const {
        return blank ? CutKind::Second : strip ? CutKind::Rip : CutKind::Crosscut;
    }
    friend bool operator==(const CutRef&, const CutRef&) = default;
};

/// The cuts that are not made yet: crosscuts from the datum end, then the rips of each section,
/// then the second crosscuts of each strip. A cut that two pieces share is named by the one it
/// ends.
[[nodiscard]] std::vector<CutRef> cutsOn(const Document& document, BoardId board);

/// Nothing is cut from its strip any more to free the blank: both its ends are free, or it has gone
/// on to the next stage.
[[nodiscard]] bool isParted(const Blank& blank);

/// Where the cut is read; nothing when the layout does not have it.
[[nodiscard]] std::optional<Length> markOf(const BoardLayout& layout, const CutRef& cut);
/// The same in the document's plan.
[[nodiscard]] std::optional<Length> markOf(const Document& document, BoardId board,
                                           const CutRef& cut);

/// "Crosscut", "Rip" or "Second crosscut".
[[nodiscard]] const char* nameOf(CutKind kind);

/// What the saw takes in this section's rips.
[[nodiscard]] Length ripKerfOf(const Shop& shop, const Section& section);

/// What becomes of the waste before a strip's near edge.
enum class NearEdge {
    OwnRip,   ///< wide enough to be ripped off by itself
    Ripped,   ///< none: made already, or by the rip that ends the strip before
    StaysOn,  ///< too little for a rip: the strip is ripped so much wider, for the jointer
    FallsFree ///< a sliver too narrow to rip off: its strip's far edge is ripped first, then the
              ///< strip is turned and the sliver falls free beyond the blade
};
[[nodiscard]] NearEdge nearEdgeOf(const Shop& shop, const Section& section, std::size_t strip);

/// Some blank of it is ripped, so both its edges are.
[[nodiscard]] bool hasRippedBlank(const Strip& strip);

/// A strip along its section's frame, from the corner where a tape hooks: where its second
/// crosscuts are read from.
[[nodiscard]] Stretch alongStrip(const Section& section, const Strip& strip);

} // namespace stavewright::hand
