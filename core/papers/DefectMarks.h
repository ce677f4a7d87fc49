#pragma once
// Defects on paper: the shared symbols, with the letter beside them where there is no room inside.

#include "core/drawing/DefectSymbol.h"
#include "core/papers/LabelPlacer.h"
#include "core/papers/Pen.h"

namespace stavewright::papers {

/// Puts a symbol's strokes; `toPaper` maps the frame that the symbol was made in. A defect that
/// shows on face B only is drawn dashed, without hatching.
template <class ToPaper>
void drawStrokes(Pen& pen, const drawing::DefectSymbol& symbol, bool onFaceB, ToPaper toPaper);

/// Puts the letter in the middle of `box` when it has room, else beside it, else further off with a
/// leader.
void placeLetter(Pen& pen, LabelPlacer& placer, const Rect& box, char letter);

/// A ring round a knot that is to be filled, and beside it the drop with the fill's name; rather
/// not over any of `spared`: defects, and cuts that would seem to part the name from its knot.
void placeFill(Pen& pen, LabelPlacer& placer, const Rect& box, const std::string& text,
               const std::vector<Rect>& spared);

[[nodiscard]] LineLook lookOf(drawing::StrokeRole role, bool onFaceB);

template <class ToPaper>
void drawStrokes(Pen& pen, const drawing::DefectSymbol& symbol, bool onFaceB, ToPaper toPaper) {
    for (const drawing::Stroke& stroke : symbol.strokes) {
        if (onFaceB && stroke.role == drawing::StrokeRole::Hatch) {
            continue;
        }
        const LineLook look = lookOf(stroke.role, onFaceB);
        std::vector<Point> points;
        points.reserve(stroke.points.size());
        for (const Point& point : stroke.points) {
            points.push_back(toPaper(point));
        }
        if (stroke.closed && stroke.filled && !onFaceB) {
            pen.area(points, Ink::Grey, look);
        } else if (stroke.closed) {
            pen.polygon(points, look);
        } else {
            for (std::size_t i = 0; i + 1 < points.size(); ++i) {
                pen.line(points[i], points[i + 1], look);
            }
        }
    }
}

} // namespace stavewright::papers
