#pragma once
// What of a board looks different when one picture of it takes the place of another, so that only
// that is painted anew.

#include <vector>

#include "ui/layout/BoardPicture.h"

namespace stavewright::ui {

/// From edge to edge of the board, millimetres along it.
struct Reach {
    double from = 0;
    double to = 0;
    friend bool operator==(const Reach&, const Reach&) = default;
};

struct PictureChange {
    bool isWhole = false; ///< more than blanks and what goes with them
    bool words = false;   ///< the lines and readings above the board, or its words beside it
    /// Ascending and apart; without room for strokes and letters that reach over what they belong
    /// to.
    std::vector<Reach> onWood;
};

[[nodiscard]] PictureChange changeOf(const BoardPicture& before, const BoardPicture& after);

/// In ascending order; those that meet become one.
[[nodiscard]] std::vector<Reach> together(std::vector<Reach> reaches);

} // namespace stavewright::ui
