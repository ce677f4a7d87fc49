#pragma once
// What the pieces of a board drawing share: the map from board to paper, the pen, and the labels
// placed so far. Paper y grows downwards, the board's y upwards: the near edge lies at the bottom.
// Face B is shown as it looks when the board is rolled over its long axis: the datum end stays at
// the left, the near edge comes to the top.

#include <set>

#include "core/audit/Audit.h"
#include "core/papers/CutSteps.h"
#include "core/papers/LabelPlacer.h"
#include "core/papers/Pen.h"

namespace stavewright::papers {

struct BoardCanvas {
    const Document& document;
    const BoardCuts& cuts;
    Pen pen;
    LabelPlacer placer{0.4_mm};
    std::vector<Rect> stripTags{}; ///< numbers of the strips, which labels keep off
    std::vector<Rect> defects{};   ///< boxes on paper that labels should rather not hide
    BoardFace face = BoardFace::A;
    int scale = 10;
    Rect box{};      ///< of the outline, board frame
    Length left{};   ///< paper x of the datum end
    Length bottom{}; ///< paper y of the board's lowest y

    [[nodiscard]] Length onPaper(Length onBoard) const {
        return scaled(onBoard, 1.0 / static_cast<double>(scale));
    }
    [[nodiscard]] Point onPaper(const Point& point) const {
        const Length up = onPaper(point.y - box.y0);
        return {left + onPaper(point.x - box.x0), face == BoardFace::A ? bottom - up : top() + up};
    }
    [[nodiscard]] std::vector<Point> onPaper(const Polygon& polygon) const {
        std::vector<Point> corners;
        corners.reserve(polygon.size());
        for (const Point& point : polygon) {
            corners.push_back(onPaper(point));
        }
        return corners;
    }
    /// Paper x of a reading from the datum end.
    [[nodiscard]] Length atReading(Length reading) const { return left + onPaper(reading); }
    [[nodiscard]] Length right() const { return left + onPaper(box.length()); }
    [[nodiscard]] Length top() const { return bottom - onPaper(box.width()); }
};

/// The upright box that surely lies inside a slightly turned rectangle on paper.
[[nodiscard]] Rect innerBox(const std::vector<Point>& corners);
[[nodiscard]] Rect outerBox(const std::vector<Point>& corners);

/// Readings in flags over the tape, and the tape itself; both stand on `canvas.top()`. Returns the
/// height used above it.
Length drawTape(BoardCanvas& canvas);
/// How high drawTape() will be.
[[nodiscard]] Length tapeHeight(const BoardCanvas& canvas);

/// The number of each strip at its datum-side end; false when no strip has room for one.
bool drawStripNumbers(BoardCanvas& canvas);

/// Labels of blanks and offcuts; those that find no room inside go below the board. Returns the
/// height used below `canvas.bottom`.
Length drawBlankLabels(BoardCanvas& canvas);
/// The grain of every blank, wherever an arrow runs over no label and no defect; after the names of
/// the defects, which matter more.
void drawGrainArrows(BoardCanvas& canvas);
/// On face B: which blank lies where, in small type, as far as there is room.
void drawSmallBlankLabels(BoardCanvas& canvas);

/// What of the legend a drawing needs.
struct DrawingKey {
    std::set<DefectKind> kinds;
    bool dashedFaceB = false;
    bool notLookedAt = false;
    bool offcuts = false;
    bool fills = false;
    bool strips = false;
};

/// Waste, offcuts, defects, outline and cuts of the face that the canvas shows.
void drawWood(BoardCanvas& canvas, DrawingKey& key);
/// Signs and marks of the knots that are to be filled on this face: before all other labels, so
/// that each has its place. Returns the defects they name.
[[nodiscard]] std::set<DefectId> drawFills(BoardCanvas& canvas, const std::vector<Fill>& fills,
                                           DrawingKey& key);
/// The letters of the defects that have no name yet.
void drawDefectLetters(BoardCanvas& canvas, const std::set<DefectId>& named, DrawingKey& key);
/// The defect's mark where this face shows it; a through defect marked on one face runs straight.
[[nodiscard]] const FaceMark* markOn(const Defect& defect, BoardFace face);

/// A small triangle at (x, y) that points to the side where the blade runs.
void drawBlade(Pen& pen, Point at, Blade blade);

} // namespace stavewright::papers
