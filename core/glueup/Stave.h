#pragma once
// A stave as the arrangement sees it. Everything stands in the stave's own frame, which lies as its
// board lay on the rack: x along the grain, y across from the near edge of its net width, board
// face A up. A pose (core/layout/Plan.h) says how it comes to lie in the panel.

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/Id.h"
#include "core/glueup/Movement.h"
#include "core/layout/Plan.h"
#include "core/lumber/Board.h"

namespace stavewright::glueup {

/// CIE 1976 L*a*b* in hundredths: how a strip of wood looks, mean of a strip along the stave.
struct Colour {
    std::int32_t lightness = 0;
    std::int32_t a = 0;
    std::int32_t b = 0;
    friend bool operator==(const Colour&, const Colour&) = default;
};

/// Colours of one face from the near to the far edge; empty when nobody knows them.
using ColourStrips = std::vector<Colour>;

/// How the grain looks along one edge.
enum class Figure { Unknown, Straight, Arched };

/// A knot, hole or bark pocket on one finished surface, in the stave's frame, with the disturbed
/// grain round it.
struct KnotPlace {
    Rect knot;
    Rect halo;
    friend bool operator==(const KnotPlace&, const KnotPlace&) = default;
};

/// Which way the lines of the figure run along one edge, as a photograph shows them.
struct EdgeLines {
    /// Against the stave's length, in tenths of a degree, -900 to 900: positive where they rise
    /// from the near to the far edge as they go to the far end. On face B as seen through from A.
    std::int32_t angleTenths = 0;
    std::int32_t surePercent = 0; ///< 100: all lines run so; 0: they run every way
    friend bool operator==(const EdgeLines&, const EdgeLines&) = default;
};

/// What a photograph tells of one face of a stave; empty where there is none.
struct PhotoLook {
    ColourStrips colours;
    std::optional<EdgeLines> nearLines = std::nullopt;
    std::optional<EdgeLines> farLines = std::nullopt;
    friend bool operator==(const PhotoLook&, const PhotoLook&) = default;
};

struct FaceView {
    std::vector<KnotPlace> knots;
    PhotoLook photo;
    friend bool operator==(const FaceView&, const FaceView&) = default;
};

struct Stave {
    int number = 0; ///< as written on the wood
    BoardId board;
    Length width;     ///< net
    Length length;    ///< finished
    Length thickness; ///< finished
    RingData rings;
    Movement movement;
    PlaningDirection planing = PlaningDirection::Unknown;
    Figure nearEdge = Figure::Unknown;
    Figure farEdge = Figure::Unknown;
    FaceView faceA;
    FaceView faceB;
    /// Poses the plan's rules forbid, by poseIndex: a knot would come to lie where it may not.
    std::array<bool, 4> forbidden{};
};

/// 0 as it lies, 1 end for end, 2 face over, 3 both.
[[nodiscard]] constexpr int poseIndex(Pose pose) {
    return (pose.endForEnd ? 1 : 0) + (pose.faceOver ? 2 : 0);
}
[[nodiscard]] constexpr Pose poseOf(int index) { return {(index & 1) != 0, (index & 2) != 0}; }

/// In this pose y runs against the board's.
[[nodiscard]] constexpr bool runsBackAcross(Pose pose) { return pose.endForEnd != pose.faceOver; }

/// +1 when the stave wants to be planed towards the panel's far end with its upper face up, -1 the
/// other way, 0 unknown. Turning it end for end turns the direction; so does rolling it over,
/// because the fibres that rise towards one end of a face sink towards it on the other.
[[nodiscard]] int planingInPanel(const Stave& stave, Pose pose);

/// +1 when the heart side is up in the panel, -1 when it is down, 0 when unknown or when the rings
/// stand so upright that there is no heart side.
[[nodiscard]] int heartInPanel(const Stave& stave, Pose pose);

/// The face that shows, and its knots where they lie in the panel when the stave's near edge there
/// is at y = 0.
[[nodiscard]] std::vector<KnotPlace> shownKnots(const Stave& stave, Pose pose);
[[nodiscard]] std::vector<KnotPlace> hiddenKnots(const Stave& stave, Pose pose);

/// At the panel's near (low y) or far edge of the stave.
enum class Side { Near, Far };
[[nodiscard]] Figure figureAt(const Stave& stave, Pose pose, Side side);
/// Of the face that shows, in the panel's frame; nothing where no photograph shows lines plainly
/// enough to go by.
[[nodiscard]] std::optional<EdgeLines> linesAt(const Stave& stave, Pose pose, Side side);
/// Less than this says nothing of which way the lines run (noise alone comes to less than 15).
inline constexpr std::int32_t leastSurePercent = 25;
/// On the face that shows.
[[nodiscard]] std::optional<Colour> colourAt(const Stave& stave, Pose pose, Side side);

/// CIE 1976 colour difference, in thousandths; 2.3 (2300) is about what the eye just notices
/// (Mahy, Van Eycken and Oosterlinck 1994, Color Research and Application 19(2), from memory).
[[nodiscard]] std::int64_t colourStep(const Colour& a, const Colour& b);

} // namespace stavewright::glueup
