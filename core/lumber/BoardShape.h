#pragma once
// The outline of a board as a maker measures it: a length, a width at either end and a crook; or,
// where that is not enough, the two edges at a few stations along the board.
//
//   board = withOutline(board, outlineOf(PlainOutline{length, wideAtDatum, wideAtFar, {}}));

#include <optional>
#include <vector>

#include "core/lumber/Board.h"

namespace stavewright {

/// A straight near edge on y = 0, a width that changes evenly from end to end, and all of it bent
/// by the crook.
struct PlainOutline {
    Length length;
    Length widthAtDatum;
    Length widthAtFar;
    Length crook; ///< deepest gap of the near edge from its chord; positive towards the far edge
    friend bool operator==(const PlainOutline&, const PlainOutline&) = default;
};
[[nodiscard]] Polygon outlineOf(const PlainOutline& plain);
/// The four numbers again; nothing when the outline was drawn otherwise.
[[nodiscard]] std::optional<PlainOutline> plainOutlineOf(const Polygon& outline);

/// Where the two edges stand at one distance from the datum end.
struct Station {
    Length x;
    Length nearEdge;
    Length farEdge;
    friend bool operator==(const Station&, const Station&) = default;
};
/// A station at every corner of the outline, ascending.
[[nodiscard]] std::vector<Station> stationsOf(const Polygon& outline);
[[nodiscard]] Polygon outlineOf(const std::vector<Station>& stations);

/// The outline cut off at `length`, or led on from its far end as wide as it ends.
[[nodiscard]] Polygon ofLength(const Polygon& outline, Length length);

/// How far the middle of the near edge stands from the chord of its ends.
[[nodiscard]] Length crookOf(const Polygon& outline);
/// The outline bent further or back, until its crook is as given.
[[nodiscard]] Polygon bent(const Polygon& outline, Length crook);

/// Widths across the two ends of the outline.
struct EndWidths {
    Length atDatum;
    Length atFar;
};
[[nodiscard]] EndWidths endWidthsOf(const Polygon& outline);

/// The board with another outline. What was looked at, and how it is sawn, follows: what reached up
/// to the old far end goes up to the new one, nothing reaches beyond it.
[[nodiscard]] Board withOutline(Board board, Polygon outline);

} // namespace stavewright
