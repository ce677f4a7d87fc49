#pragma once
// Where the letters of a board's marks stand: in a mark that holds its letter, else beside it, on
// the wood and off other marks and letters. It follows from the board alone, not from what the plan
// lays on it, so that a blank in the hand moves no letter.

#include <QFont>
#include <QTransform>

#include <vector>

#include "ui/layout/BoardPicture.h"

namespace stavewright::ui {

struct LetterPlace {
    QRectF mark;   ///< what is seen of the mark, in pixels; empty where it shows nowhere
    QRectF letter; ///< beside the mark; empty where it stands in the mark or is not written
    bool isBeside = false;
};

/// One for each defect, in their order. `face` lies up; marks of the other face show through.
[[nodiscard]] std::vector<LetterPlace> letterPlaces(const BoardPicture& picture, BoardFace face,
                                                    const QTransform& toPixels, const QFont& font);

/// Marks and letters: what words keep clear of.
[[nodiscard]] std::vector<QRectF> takenBy(const std::vector<LetterPlace>& places);

} // namespace stavewright::ui
