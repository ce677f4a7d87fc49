#pragma once
// The cutting problem in integers: boards with blocked regions, kinds of blank, kerfs and money. It
// knows nothing of the document; core/planning translates. All lengths are nanometres, all money is
// in ten-thousandths of the currency, all frames are board frames (x along from the datum end, y
// across, face A up).

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/geometry/PolygonOps.h"
#include "core/geometry/Shapes.h"

namespace stavewright::cutting {

using Nm = std::int64_t;
using Cost = std::int64_t;

/// Region of one face where a rule forbids a blank's zone, or lets it in for a price. The polygon
/// already contains the halo and is taken at the depth of the finished surface.
struct Block {
    Polygon region;
    std::optional<Cost>
        fill;            ///< price when it may be filled or counts against looks; none: forbidden
    bool isFill = false; ///< counts as a fill to be poured
    int defect = -1;     ///< blocks of one defect share a number: its price is paid once per blank
};

/// What one rule does on both faces of one board. Indexed by Zone::rule.
struct RuleLayer {
    std::vector<Block> onA;
    std::vector<Block> onB;
};

/// A position in a blank: from its low end (fromHigh = false) or, negative offsets, from its high
/// end.
struct Mark {
    bool fromHigh = false;
    Nm offset = 0;
    [[nodiscard]] constexpr Nm in(Nm extent) const { return fromHigh ? extent + offset : offset; }
    friend bool operator==(const Mark&, const Mark&) = default;
};

struct Zone {
    int rule = 0;        ///< index into Board::layers
    bool onB = false;    ///< blank's face B
    Mark x0, x1, y0, y1; ///< in the blank frame
    friend bool operator==(const Zone&, const Zone&) = default;
};

/// A kind of blank. Fixed: `width` and `demand` blanks. Pool: widths in [width, widest] by `step`,
/// the net widths (rough less `jointAllowance`) of each of `demand` panels add up to [netWanted,
/// netMost] with fewest..most staves.
struct Kind {
    std::string name;
    Nm length = 0;
    Nm width = 0;
    bool isPool = false;
    Nm widest = 0;
    Nm step = 0;
    Nm jointAllowance = 0;
    Nm netWanted = 0;
    Nm netMost = 0;
    int fewest = 1;
    int most = 64;
    int demand = 0;
    Nm thickness = 0; ///< the section must reach this
    Nm thickest = 0;  ///< boards thicker than this cannot give it: too much would be planed away;
                      ///< 0: any
    int material = 0; ///< boards of another material (species) cannot give it
    std::vector<Zone> zones;
    bool mayTurn = true; ///< end for end
    bool mayFaceOver = true;
    int group = -1; ///< kinds of one group come from one board where possible
    Cost penaltyUnplaced =
        0; ///< per blank, or per panel in proportion to the width that is missing
};

struct Board {
    std::string name;
    Polygon outline;    ///< one run in y at every x
    Nm trimAtDatum = 0; ///< no blank before this x
    Nm trimAtFar = 0;
    Cost cost = 0; ///< when touched
    std::int64_t boardFeetMillionths = 0;
    int material = 0;
    Nm thinnest = 0;
    Nm bow = 0, cup = 0, twist = 0;
    int warpWhere = 0; ///< 0 even, 1 mostly at the datum end, 2 mostly at the far end
    Nm cleaning = 0;
    std::vector<RuleLayer> layers; ///< by Zone::rule; the same rules on every board
};

/// Staves that a panel of a pool needs at least: as told, or because none may be wider.
[[nodiscard]] inline std::int64_t fewestStaves(const Kind& pool) {
    const Nm widest = pool.widest - pool.jointAllowance;
    const Nm needed = widest > 0 ? (pool.netWanted + widest - 1) / widest : 1;
    return needed > pool.fewest ? needed : pool.fewest;
}

/// The board is of the kind's material and not too thick for it.
[[nodiscard]] inline bool suits(const Kind& kind, const Board& board) {
    return kind.material == board.material &&
           (kind.thickest == 0 || board.thinnest <= kind.thickest);
}

struct Limits {
    Nm crosscutKerf = 0;
    Nm ripKerf = 0;
    Nm stripCrosscutKerf = 0;
    Nm jointerWidth = 0;     ///< a section faced whole may not be wider; 0: no limit
    Nm leastFacedLength = 0; ///< shorter sections may not go over jointer and planer; 0: no limit
    Nm narrowestRip = 0;
    Cost crosscutCost = 0;
    Cost ripCost = 0;
    Nm offcutLength = 0, offcutWidth = 0; ///< least size of waste that is worth keeping
    int offcutWorthPercent = 0;           ///< of its share (by area) of the board's cost
    Cost groupApart = 0; ///< for each board beyond the first that a group comes from
};

/// A blank that stays where it is: already cut or locked. Consumes its rectangle and its demand.
struct Fixed {
    int board = 0;
    int kind = 0;
    Rect rect; ///< box in the board frame
};

struct Problem {
    std::vector<Board> boards;
    std::vector<Kind> kinds;
    Limits limits;
    std::vector<Fixed> fixed;
};

/// A blank placed by the engine. `rect` is in its section's frame.
struct Placed {
    int kind = 0;
    int panel = 0; ///< for pools: which panel of the kind, from 0
    Rect rect;
    bool endForEnd = false;
    bool faceOver = false;
};

struct PlacedStrip {
    Nm v0 = 0, v1 = 0;
    std::vector<Placed> blanks; ///< by ascending u, at least stripCrosscutKerf apart
};

struct PlacedSection {
    Nm x0 = 0, x1 = 0; ///< board frame
    Frame frame;       ///< sectionFrame() of Geometry
    bool roughRippedFirst = false;
    std::vector<PlacedStrip> strips; ///< by ascending v, at least ripKerf apart
};

struct Pattern {
    int board = 0;
    std::vector<PlacedSection> sections; ///< by ascending x, at least crosscutKerf apart
};

struct Solution {
    std::vector<Pattern> patterns; ///< one per touched board
    std::vector<int> unplaced;     ///< per kind: blanks, or panels, not placed
    Cost value = 0; ///< boards, less offcuts' worth, plus fills, cuts, groups apart and penalties
    Cost groupsApart = 0; ///< of the value; the bound leaves it out
    /// No plan of this family has a lesser value; none while nothing is proved.
    std::optional<Cost> bound;
    std::int64_t work = 0; ///< counted work
};

} // namespace stavewright::cutting
