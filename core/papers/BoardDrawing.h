#pragma once
// The scaled drawing of one board: tape and readings above it, the board with its defects,
// sections, strips, blanks, offcuts and waste, the sections named below. Near edge at the bottom,
// datum end at the left, as the board lies in front of the maker, face A up.

#include "core/papers/BoardCanvas.h"
#include "core/papers/PageModel.h"

namespace stavewright::papers {

struct BoardDrawing {
    std::vector<Mark> marks; ///< from an origin at the top left
    Length height;
    int scale = 10; ///< 1 : scale
    DrawingKey key;
};

/// The largest scale of which `smaller` steps leave the board within `width`.
[[nodiscard]] int scaleFor(const Document& document, const Board& board, Length width,
                           int smaller = 0);

/// Face A at 1 : scale, with tape and readings; the height follows.
[[nodiscard]] BoardDrawing drawBoard(const Document& document, const BoardCuts& cuts,
                                     const std::vector<Fill>& fills, int scale,
                                     const TextMeasure& measure);

/// Whether face B shows anything worth a figure of its own.
[[nodiscard]] bool needsFaceB(const Board& board, const std::vector<Fill>& fills);

/// Face B as it looks when the board is rolled over: no tape, as nothing is cut from there.
[[nodiscard]] BoardDrawing drawFaceB(const Document& document, const BoardCuts& cuts,
                                     const std::vector<Fill>& fills, int scale,
                                     const TextMeasure& measure);

/// The board's end as it looks at the datum end with `up` on top: rings bend round the heart.
void drawEndRings(Pen& pen, Point topLeft, HeartSide heart, BoardFace up);
inline constexpr Length endRingsWidth = 13_mm;
inline constexpr Length endRingsHeight = 4.4_mm;

/// Adds the marks to a page, moved by `offset`.
void place(Page& page, const std::vector<Mark>& marks, Point offset);

} // namespace stavewright::papers
