#pragma once
// A defect of a board as the maker marked it: what it is, and where it shows on each face.

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/Id.h"
#include "core/geometry/Shapes.h"

namespace stavewright {

/// Trade terms for what is wrong, or merely different, in a board.
enum class DefectKind {
    SoundKnot,
    LooseKnot,
    KnotHole,
    Check,
    Split,
    Shake,
    Wane,
    Pith,
    BarkPocket,
    Sapwood,
    Stain,
    WormHoles,
    Other
};
inline constexpr std::array<DefectKind, 13> allDefectKinds = {
    DefectKind::SoundKnot,  DefectKind::LooseKnot, DefectKind::KnotHole, DefectKind::Check,
    DefectKind::Split,      DefectKind::Shake,     DefectKind::Wane,     DefectKind::Pith,
    DefectKind::BarkPocket, DefectKind::Sapwood,   DefectKind::Stain,    DefectKind::WormHoles,
    DefectKind::Other};

enum class BoardFace { A, B };
[[nodiscard]] constexpr BoardFace other(BoardFace face) {
    return face == BoardFace::A ? BoardFace::B : BoardFace::A;
}

/// The remembered form of a mark drawn as an ellipse.
struct Ellipse {
    Point centre;
    Length along;  ///< full length along its own first axis
    Length across; ///< full width along its second axis
    std::int64_t turnMicroradians = 0;
    friend bool operator==(const Ellipse&, const Ellipse&) = default;
};

/// Where a defect shows on one face, in the board frame seen through from face A.
struct FaceMark {
    Polygon outline;
    std::optional<Ellipse> form; ///< set when the outline came from an ellipse
    friend bool operator==(const FaceMark&, const FaceMark&) = default;
};

/// At least one of onA and onB is set. A through defect runs as a (skewed) prism from its mark on A
/// to its mark on B; with one mark only it runs straight. A defect that is not through reaches
/// `depth` below its face; with no depth given it is taken to reach half the board's thickness (a
/// cautious common practice, no source).
struct Defect {
    DefectId id;
    std::string mark; ///< chalk mark on its board, e.g. "K3"
    DefectKind kind = DefectKind::Other;
    std::optional<FaceMark> onA;
    std::optional<FaceMark> onB;
    bool through = false;
    std::optional<Length> depth;
    std::string note;
    friend bool operator==(const Defect&, const Defect&) = default;
};

/// The word the trade uses, lower case: "sound knot".
[[nodiscard]] std::string_view nameOf(DefectKind kind);
/// The chalk letter of the kind, as drawn: 'S' sound knot, 'L' loose knot, 'O' hole ...
[[nodiscard]] char letterOf(DefectKind kind);
/// The size a rule is compared with: the longer side of the box round the mark (the larger of the
/// two faces); for an ellipse its longer axis.
[[nodiscard]] Length sizeOf(const Defect& defect);

/// What the defect looks like in the plane `depthFromA` below face A of wood `thickness` thick;
/// nothing where it does not reach that plane. Between two marks the outline is the interpolated
/// convex hull (a linear cone).
[[nodiscard]] std::optional<Polygon> outlineAtDepth(const Defect& defect, Length thickness,
                                                    Length depthFromA);

} // namespace stavewright
