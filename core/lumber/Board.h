#pragma once
// A rough board at hand. Frame: x along the grain from the datum end, y across from the near edge,
// face A up. Everything on face B is stored where it stands seen through from face A.

#include <optional>
#include <string>
#include <vector>

#include "core/base/Id.h"
#include "core/lumber/BoardPhoto.h"
#include "core/lumber/Defect.h"
#include "core/units/Measure.h"

namespace stavewright {

/// Nominal rough thickness in quarter inches: {8} is 8/4. Always inches.
struct Quarter {
    int quarters = 4;
    [[nodiscard]] constexpr Length nominal() const { return Length::inches(quarters, 4); }
    friend constexpr auto operator<=>(const Quarter&, const Quarter&) = default;
};
inline constexpr std::array<Quarter, 7> tradeQuarters = {
    Quarter{4}, Quarter{5}, Quarter{6}, Quarter{8}, Quarter{10}, Quarter{12}, Quarter{16}};

/// Deviation from flat, each measured on the whole board as the deepest gap (twist: the fourth
/// corner's lift with three corners down).
struct Warp {
    enum class Where { Even, MostlyAtDatumEnd, MostlyAtFarEnd };
    Length bow;
    Length cup;
    Length twist;
    Where where = Where::Even; ///< "mostly at this end": the square law does not hold there
    friend bool operator==(const Warp&, const Warp&) = default;
};

enum class HeartSide { Unknown, FaceA, FaceB };
enum class PlaningDirection { Unknown, TowardsFarEnd, TowardsDatumEnd };
/// Which way along the board it is fed through the planer: 1 towards the far end, -1 towards the
/// datum end, 0 where that is not known.
[[nodiscard]] constexpr int alongBoard(PlaningDirection direction) {
    switch (direction) {
    case PlaningDirection::TowardsFarEnd:
        return 1;
    case PlaningDirection::TowardsDatumEnd:
        return -1;
    case PlaningDirection::Unknown:
        break;
    }
    return 0;
}

/// How the rings meet the face: flat to it, at a slant, or upright.
enum class Sawn { Plain, Rift, Quartered };

/// Where a board is sawn alike: the middle of a wide plain-sawn board is plain, its edges rift.
struct SawnRegion {
    Sawn sawn = Sawn::Plain;
    Rect where; ///< in the board frame
    friend bool operator==(const SawnRegion&, const SawnRegion&) = default;
};

/// A stretch of one face that somebody has looked at. Wood nobody has looked at is not clear wood.
struct LookedAt {
    BoardFace face = BoardFace::A;
    Stretch stretch;
    /// Set after a quick look: the wood is sound, but sound knots smaller than this were not marked
    /// one by one. A piece that may hold no such knot wants another look.
    std::optional<Length> knotsUnder = std::nullopt;
    friend bool operator==(const LookedAt&, const LookedAt&) = default;
};

/// Where a board came from when it is what is left of another one.
struct BoardParent {
    BoardId board;
    Point origin;           ///< of this board's frame in the parent's frame
    bool endForEnd = false; ///< this board's x runs against the parent's
    friend bool operator==(const BoardParent&, const BoardParent&) = default;
};

/// Which piece of which shop rack a board of this job was. The rack knows by the number of the loan
/// that this job has it; the job needs nothing from the rack.
struct RackLink {
    std::string rack; ///< the rack's own name, 32 hexadecimal digits
    std::int64_t piece = 0;
    std::int64_t loan = 0;
    friend bool operator==(const RackLink&, const RackLink&) = default;
};

struct Board {
    BoardId id;
    std::string mark;    ///< chalk mark, unique in the job, e.g. "7"
    std::string species; ///< key of the species table
    Quarter quarter;
    Length thinnest; ///< thinnest measured spot
    Polygon outline; ///< rough outline with wane, taper and crook; starts at x = 0
    Warp warp;
    HeartSide heart = HeartSide::Unknown;
    /// Of the growth rings that show at the ends; without it the job's usual one counts.
    std::optional<Length> ringRadius = std::nullopt;
    PlaningDirection planing = PlaningDirection::Unknown;
    std::vector<SawnRegion> sawn; ///< where it was noted; the first that holds a place counts
    Money pricePerBoardFoot;
    std::optional<BoardFeet> billed; ///< as the yard tallied it; without it the exact size counts
    std::optional<std::int64_t> moistureTenths; ///< percent moisture content, in tenths
    Length trimAtDatum; ///< raw end to cut off before anything (checks), from x = 0
    Length trimAtFar;   ///< the same at the far end
    std::vector<LookedAt> lookedAt;
    std::vector<Defect> defects;
    std::vector<BoardPhoto> photos; ///< several of one face show a stretch each
    std::optional<BoardParent> parent;
    std::optional<RackLink> rackLink = std::nullopt;
    bool setAside = false; ///< kept whole: no plan may touch it
    std::string notes;
    friend bool operator==(const Board&, const Board&) = default;
};

/// Extent of the outline along the grain.
[[nodiscard]] Length lengthOf(const Board& board);
/// Greatest extent of the outline across.
[[nodiscard]] Length widthOf(const Board& board);
/// Nominal thickness x area of the outline: the measure all plans and prices use unless billed.
[[nodiscard]] BoardFeet exactBoardFeet(const Board& board);
/// billed, or exactBoardFeet.
[[nodiscard]] BoardFeet boardFeetOf(const Board& board);
[[nodiscard]] Money costOf(const Board& board);

/// Thickness a piece still has after one face is flattened and the other planed parallel, when its
/// size at the first facing is length x width and it lies at `along` on the board:
///   thinnest - bow (l/L)^2 - cup (w/W)^2 - twist/2 (l/L)(w/W) - cleaning
/// (terms rarely peak together; twist counts half because the piece can be shimmed). Warp that sits
/// mostly at one end counts whole for pieces that reach into that third of the board, not at all
/// elsewhere. Rounded down to the nanometre.
[[nodiscard]] Length reachableThickness(const Board& board, Stretch along, Length width,
                                        Length cleaning);

/// Stretches of `face` within `within` that nobody has looked at.
[[nodiscard]] std::vector<Stretch> notLookedAt(const Board& board, BoardFace face, Stretch within);

/// Stretches of `face` within `within` that had no more than quick looks, ascending, each with the
/// largest size under which knots were left unmarked there by the most careful of those looks.
struct QuickLook {
    Stretch stretch;
    Length knotsUnder;
    friend bool operator==(const QuickLook&, const QuickLook&) = default;
};
[[nodiscard]] std::vector<QuickLook> quicklyLookedAt(const Board& board, BoardFace face,
                                                     Stretch within);

} // namespace stavewright
