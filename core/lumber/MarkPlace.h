#pragma once
// A defect as it is measured with a tape: how far from the datum end and from the near edge its
// mark begins, and how long and wide it is.
//
//   defect.onA = markAt(board.outline, DefectKind::SoundKnot, {thirtyOne, two, one, one});

#include "core/lumber/Board.h"

namespace stavewright {

struct MarkPlace {
    Length fromDatum; ///< from the datum end to where the mark begins
    Length fromEdge;  ///< from the near edge, at the middle of the mark, to where it begins
    Length along;
    Length across;
    friend bool operator==(const MarkPlace&, const MarkPlace&) = default;
};

/// Round in wood: a knot, a hole, a pocket; the rest are stretches or lines.
[[nodiscard]] bool isRound(DefectKind kind);
/// A line in wood, much longer than wide: check, split, shake, pith.
[[nodiscard]] bool isLine(DefectKind kind);

[[nodiscard]] MarkPlace placeOf(const Polygon& boardOutline, const FaceMark& mark);

/// A new mark: an ellipse for what is round in wood, a rectangle for what is a stretch of it.
[[nodiscard]] FaceMark markAt(const Polygon& boardOutline, DefectKind kind, const MarkPlace& place);

/// The mark moved and stretched to another place; a drawn outline keeps its shape.
[[nodiscard]] FaceMark movedTo(const Polygon& boardOutline, const FaceMark& mark,
                               const MarkPlace& place);

/// The box that the maker measures; of an ellipse its axes, not the polygon round it.
[[nodiscard]] Rect boxOf(const FaceMark& mark);
/// The mark moved and stretched into another box; a drawn outline keeps its shape.
[[nodiscard]] FaceMark stretchedTo(const FaceMark& mark, const Rect& box);

/// The mark of a defect that turns out to be of another kind: what was measured as a box takes the
/// form of the new kind, a drawn outline stays.
[[nodiscard]] FaceMark asKind(const Polygon& boardOutline, const FaceMark& mark, DefectKind from,
                              DefectKind to);

/// The mark as it shows on the other face when it runs straight, or with this much slant.
[[nodiscard]] FaceMark shifted(const FaceMark& mark, Length along, Length across);

/// How far the box of the second mark begins from that of the first: the slant of a defect that
/// goes through.
[[nodiscard]] Point offsetBetween(const FaceMark& first, const FaceMark& second);

} // namespace stavewright
