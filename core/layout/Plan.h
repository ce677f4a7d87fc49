#pragma once
// A plan is a cut tree: board -> section -> strip -> blank, with waste between them. It is what the
// solver proposes, what the maker edits, and what the papers print.
//
// Frames: a section stands in its board by `frame`; strips and blanks are given in the section's
// frame, u along its straightened edge, v across. Rectangles of one section compare exactly.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/Id.h"
#include "core/geometry/PolygonOps.h"
#include "core/geometry/Shapes.h"
#include "core/units/Measure.h"

namespace stavewright {

enum class CutState { Planned, Cut, Milled, Ripped, Glued, SecondMilled, Final };

/// How a blank lies on the board. endForEnd turns it in the plane of the board (x and y both run
/// backwards, face A stays up); faceOver rolls it over its long axis (y runs backwards, its face A
/// lies on the board's face B).
struct Pose {
    bool endForEnd = false;
    bool faceOver = false;
    friend constexpr bool operator==(const Pose&, const Pose&) = default;
};

/// Which piece a blank becomes. `instance` counts from 1 within the part (for a multiple: the first
/// of its parts), `ply` and `stave` from 1; 0 means the part has none.
struct BlankPurpose {
    PartId part;
    int instance = 1;
    int ply = 0;
    int stave = 0;
    friend constexpr auto operator<=>(const BlankPurpose&, const BlankPurpose&) = default;
};

struct Blank {
    BlankId id;
    BlankPurpose purpose;
    Rect rect; ///< nominal rough size, in the section frame
    Pose pose;
    CutState state = CutState::Planned;
    bool locked = false;
    std::optional<Rect> actual; ///< as cut, where it differs
    bool lowEndCut = false;     ///< a second crosscut has freed this end
    bool highEndCut = false;
    std::string note;
    friend bool operator==(const Blank&, const Blank&) = default;
};

/// The wood of a blank, in the section frame: as cut where that differs, otherwise as planned.
[[nodiscard]] inline const Rect& woodOf(const Blank& blank) {
    return blank.actual ? *blank.actual : blank.rect;
}

/// Waste large enough to keep.
struct Offcut {
    OffcutId id;
    Rect rect; ///< in the section frame
    CutState state = CutState::Planned;
    friend bool operator==(const Offcut&, const Offcut&) = default;
};

struct Strip {
    StripId id;
    Stretch across;            ///< v0..v1 in the section frame
    std::vector<Blank> blanks; ///< by ascending u; one narrower than the strip gets a trimming rip
    std::vector<Offcut> offcuts;
    bool lowEdgeRipped = false; ///< that rip is made; with both made, its blanks are ripped
    bool highEdgeRipped = false;
    /// Of a strip that was rough-ripped first: a milled blank of it is lost, its wood stays milled.
    bool milled = false;
    /// To which thickness it was planed, as far as that was noted (core/layout/PieceState.h).
    std::optional<Length> planedTo = std::nullopt;
    friend bool operator==(const Strip&, const Strip&) = default;
};

/// How a section first meets the jointer: whole, or as strips rough-ripped on the band saw before.
/// Decides which size counts for the thickness that warp leaves.
enum class FirstFacing { Whole, RoughRippedFirst };

struct Section {
    SectionId id;
    Stretch along; ///< x0..x1 in the board frame: the two crosscuts
    Frame frame;   ///< of the section in the board frame
    FirstFacing facing = FirstFacing::Whole;
    std::vector<Strip> strips; ///< by ascending v
    std::vector<Offcut> offcuts;
    bool locked = false;
    CutState state = CutState::Planned;
    bool lowEndUncut = false;  ///< cut off at its high end alone; its low end is still to be cut
    bool highEndUncut = false; ///< cut off at its low end alone
    std::optional<Length> planedTo = std::nullopt; ///< how thick it is planed, if faced whole
    friend bool operator==(const Section&, const Section&) = default;
};

struct BoardLayout {
    BoardId board;
    std::vector<Section> sections; ///< by ascending x
    bool locked = false;
    friend bool operator==(const BoardLayout&, const BoardLayout&) = default;
};

/// The sums a plan claims; the audit recomputes every one. Board-feet sums (but lumberUsed) add
/// exact volumes and are rounded once, at the end.
///
/// Crosscuts counted for the cost, both saws at one price:
/// - each end of a section, but not where it is flush (to the nanometre) with that end of the
///   outline, and not its low end where it stands exactly one crosscut kerf after the section
///   before (one cut);
/// - each end of a blank, but not where the section's frame is parallel and the blank is flush (to
///   the nanometre) with that end of the section, and not its low end where it stands exactly one
///   strip-crosscut kerf after the blank before it in the same strip.
///
/// Rips counted for the cost:
/// - each edge of a strip (the first straightens the section), but not its low edge where it stands
///   exactly one kerf after the strip before; the kerf is that of machines.rip, or of
///   machines.roughRip when the section is rough-ripped first;
/// - one trimming rip for each edge of a blank that is not flush with its strip's edge there.
///
/// Offcuts add no cuts. Sections without blanks count their crosscuts like any other.
struct PlanTotals {
    int boardsUsed = 0; ///< boards with at least one section
    int placed = 0;     ///< blanks
    /// Blanks of parts without staves (plies and multiples counted as blanks), placed or not; of
    /// panels, the staves placed and one for each entry of the unplaced list.
    int demanded = 0;
    /// One for each pair of defect and blank where the defect (at the depth of the finished
    /// surface, grown by the rule's halo where it has one) meets a zone that allows it if filled,
    /// and no zone forbids it.
    int fills = 0;
    BoardFeet lumberUsed; ///< boardFeetOf the used boards, whole
    BoardFeet blanks;     ///< rough blanks (nominal rectangles), at the board's nominal thickness
    /// Finished length x width x thickness (as chosen) of the parts that the placed blanks complete
    /// or share in: a multiple counts the parts it holds, a ply 1/plies of its part, the staves of
    /// a panel (or of a ply) min(sum of net widths, glued-up width) / glued-up width of it; each
    /// product divided once, down.
    BoardFeet parts;
    BoardFeet offcutsKept; ///< at the board's nominal thickness
    /// costOf the used boards, less the worth of each offcut (costOf(board) x area x worthPercent /
    /// (outline's area x 100), rounded down), plus fills x fillEach, crosscuts x crosscut and rips
    /// x rip. Looks (knotOnShow) and match groups (groupApart) are no part of it.
    Money cost;
    friend bool operator==(const PlanTotals&, const PlanTotals&) = default;
};

/// Thickness a part is made at, where the wanted one could not be reached.
struct ThicknessChoice {
    PartId part;
    Length finished;
    friend bool operator==(const ThicknessChoice&, const ThicknessChoice&) = default;
};

/// A blank that found no place: what it is and the nearest miss in words.
struct Unplaced {
    BlankPurpose purpose;
    std::string nearestMiss;
    friend bool operator==(const Unplaced&, const Unplaced&) = default;
};

/// What the search proved: the plan counts for `counted` (its cost and what allowed knots on show
/// count against it, match groups left out), and no plan that the saws can cut from these boards
/// for these parts counts for less than `least`, nor takes boards of less than `leastLumber` where
/// everything is placed (the cheapest plan may take more). An edit of boards, parts or shop takes
/// it away.
struct Proof {
    Money counted;
    Money least;
    std::optional<BoardFeet> leastLumber =
        std::nullopt; ///< by a proof of its own, where there is one
    friend bool operator==(const Proof&, const Proof&) = default;
};

/// How the plan came about; enough to compute it again.
struct Origin {
    enum class Source { Solver, Hand };
    Source source = Source::Solver;
    std::uint64_t seed = 1;
    std::int64_t work = 0;      ///< counted work it took
    std::string engine;         ///< version of the program
    std::optional<Proof> proof; ///< of plans that place everything, where it says something
    friend bool operator==(const Origin&, const Origin&) = default;
};

struct Plan {
    std::vector<BoardLayout> boards; ///< touched boards only, in rack order
    std::vector<ThicknessChoice> thicknesses;
    std::vector<Unplaced> unplaced;
    PlanTotals totals;
    Origin origin;
    friend bool operator==(const Plan&, const Plan&) = default;
};

} // namespace stavewright
