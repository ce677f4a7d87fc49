#pragma once
// A plan is a cut tree: board -> section -> strip -> blank, with waste between them. It is what the
// solver proposes, what the maker edits, and what the papers print.
//
// Frames: a section stands in its board by `frame`; strips and blanks are given in the section's frame,
// u along its straightened edge, v across. Rectangles of one section compare exactly.

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
/// backwards, face A stays up); faceOver rolls it over its long axis (y runs backwards, its face A lies on
/// the board's face B).
struct Pose {
    bool endForEnd = false;
    bool faceOver = false;
    friend constexpr bool operator==(const Pose&, const Pose&) = default;
};

/// Which piece a blank becomes. `instance` counts from 1 within the part (for a multiple: the first of
/// its parts), `ply` and `stave` from 1; 0 means the part has none.
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
    std::string note;
    friend bool operator==(const Blank&, const Blank&) = default;
};

/// Waste large enough to keep.
struct Offcut {
    OffcutId id;
    Rect rect; ///< in the section frame
    CutState state = CutState::Planned;
    friend bool operator==(const Offcut&, const Offcut&) = default;
};

struct Strip {
    StripId id;
    Stretch across; ///< v0..v1 in the section frame
    std::vector<Blank> blanks; ///< by ascending u; a blank narrower than the strip gets a trimming rip
    std::vector<Offcut> offcuts;
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
    friend bool operator==(const Section&, const Section&) = default;
};

struct BoardLayout {
    BoardId board;
    std::vector<Section> sections; ///< by ascending x
    bool locked = false;
    friend bool operator==(const BoardLayout&, const BoardLayout&) = default;
};

/// The sums a plan claims; the audit recomputes every one.
struct PlanTotals {
    int boardsUsed = 0;
    int placed = 0;   ///< blanks
    int demanded = 0; ///< blanks; of a panel's staves, those placed count as demanded
    int fills = 0;
    BoardFeet lumberUsed;      ///< whole boards that are touched
    BoardFeet blanks;          ///< rough blanks, at the board's nominal thickness
    BoardFeet parts;           ///< finished parts that the placed blanks complete or share in
    BoardFeet offcutsKept;     ///< at the board's nominal thickness
    Money cost;                ///< lumber, less offcuts' worth, plus fills and cuts
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

/// How the plan came about; enough to compute it again.
struct Origin {
    enum class Source { Solver, Hand };
    Source source = Source::Solver;
    std::uint64_t seed = 1;
    std::int64_t work = 0; ///< counted work it took
    std::string engine;    ///< version of the program
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
