#pragma once
// Marks as they are drawn on a face with a pointer: an ellipse, a ring, a stroke along a check, a
// line along wane, a stretch from edge to edge; and how two marks become one knot that goes
// through. Everything in the board frame, seen through from face A.
//
//   Result<FaceMark> mark = strokeMark({{a, b}, {c, d}}, Length::inches(1, 16));

#include "core/base/Result.h"
#include "core/lumber/Board.h"

namespace stavewright {

/// The ellipse in the box between two opposite corners.
Result<FaceMark> ellipseBetween(Point corner, Point opposite);

/// A ring drawn point by point or freehand, without the corners that it does not need within
/// `tolerance`. One that crosses itself becomes the hull of its points: nothing inside is lost.
Result<FaceMark> ringMark(const Polygon& drawn, Length tolerance);

/// A check, split or shake drawn as a line, `width` wide all along.
Result<FaceMark> strokeMark(const Polygon& line, Length width, Length tolerance);

/// What lies between a line drawn along an edge and that edge, the nearer one.
Result<FaceMark> waneMark(const Polygon& boardOutline, const Polygon& line, Length tolerance);

/// The wood from edge to edge between two distances from the datum end.
Result<FaceMark> stretchMark(const Polygon& boardOutline, Stretch along);

[[nodiscard]] Defect* findDefect(Board& board, DefectId id);
[[nodiscard]] const Defect* findDefect(const Board& board, DefectId id);

/// The defect that shows on the other face only, lies nearest to this one's mark and begins within
/// `reach` of it along the grain: the other end of the same knot. Nothing for a defect that shows
/// on both.
[[nodiscard]] std::optional<DefectId> partnerOf(const Board& board, DefectId defect, Length reach);

/// The two as one defect that goes through from mark to mark; it keeps the id, the chalk mark and
/// the kind of `kept`. The board as it is when they do not show on one face each.
[[nodiscard]] Board paired(Board board, DefectId kept, DefectId other);

/// The mark on face B as a defect of its own again, behind the other one.
[[nodiscard]] Board parted(Board board, DefectId defect, DefectId newId, const std::string& mark);

/// How far the checks, splits and shakes that run out at an end reach into the board: what is to be
/// trimmed off there at least. 0 where none is marked. A mark runs out at an end when it begins
/// within `near` of it.
struct EndChecks {
    Length atDatum;
    Length atFar;
    friend bool operator==(const EndChecks&, const EndChecks&) = default;
};
[[nodiscard]] EndChecks endChecksOf(const Board& board, Length near);

/// The board with one more look. A look over a stretch takes the place of what quicker looks said
/// of it; looks alike that touch become one.
[[nodiscard]] Board withLook(Board board, const LookedAt& look);

/// All of the face that nobody has looked at yet is looked at now.
[[nodiscard]] Board withRestLookedAt(Board board, BoardFace face, std::optional<Length> knotsUnder);

} // namespace stavewright
