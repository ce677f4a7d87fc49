#pragma once
// The scaled drawing of one board: tape and readings above it, the board with its defects,
// sections, strips, blanks, offcuts and waste, the sections named below. Near edge at the bottom,
// datum end at the left, as the board lies in front of the maker, face A up.

#include <set>

#include "core/lumber/Defect.h"
#include "core/papers/CutSteps.h"
#include "core/papers/PageModel.h"

namespace stavewright::papers {

/// What of the legend this drawing needs.
struct DrawingKey {
    std::set<DefectKind> kinds;
    bool dashedFaceB = false;
    bool notLookedAt = false;
    bool offcuts = false;
};

struct BoardDrawing {
    std::vector<Mark> marks; ///< from an origin at the top left
    Length height;
    int scale = 10; ///< 1 : scale
    DrawingKey key;
};

/// Fits the drawing into `width`; its height follows.
[[nodiscard]] BoardDrawing drawBoard(const Document& document, const BoardCuts& cuts, Length width,
                                     const TextMeasure& measure);

/// Adds the marks to a page, moved by `offset`.
void place(Page& page, const std::vector<Mark>& marks, Point offset);

} // namespace stavewright::papers
