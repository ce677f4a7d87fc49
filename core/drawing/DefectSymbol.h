#pragma once
// How a defect is drawn, on screen and on paper alike: strokes in the board frame, clipped to the
// outline. Shape, hatch and letter tell the kind before any colour does.

#include <vector>

#include "core/lumber/Board.h"

namespace stavewright::drawing {

/// Outline, Hatch and Axis strokes are put as they are (their gaps are in the strokes); a
/// BrokenOutline is dashed and a HeavyOutline thick by whoever paints it.
enum class StrokeRole { Outline, HeavyOutline, BrokenOutline, Hatch, Axis };

struct Stroke {
    std::vector<Point> points;
    bool closed = false;
    bool filled = false;
    StrokeRole role = StrokeRole::Hatch;
};

struct DefectSymbol {
    std::vector<Stroke> strokes;
    Point letterAt; ///< middle of the letter
    char letter = '?';
};

/// `spacing` is the distance between hatch strokes in board units, so that it can follow the zoom.
[[nodiscard]] DefectSymbol symbolOf(DefectKind kind, const Polygon& outline, Length spacing);

} // namespace stavewright::drawing
