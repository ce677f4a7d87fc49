#pragma once
// Where the board lies in a picture of it: lighter, darker or of another colour than what it lies
// on.

#include <vector>

#include "core/lumber/PhotoPoint.h"
#include "core/photo/Image.h"

namespace stavewright::photo {

struct FoundBoard {
    /// Ring round the board, clockwise as seen; the whole picture where no background was found.
    std::vector<Pixels> outline;
    bool fillsPicture = true; ///< no background was found
    bool upright = false;     ///< the grain runs up and down in the picture
};

/// Careful: where it is not plain what is board and what is background, all of it counts as board.
[[nodiscard]] FoundBoard findBoard(const ImageView& picture);

/// The whole picture as board; the grain is looked at.
[[nodiscard]] FoundBoard wholePicture(const ImageView& picture);

} // namespace stavewright::photo
