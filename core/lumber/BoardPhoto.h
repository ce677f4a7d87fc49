#pragma once
// A photograph of one face of a board, as the job keeps it: the picture as it was taken, and what
// was marked in it. Everything else (the straightened picture, suggested knots) follows from these.

#include <string>

#include "core/base/Id.h"
#include "core/lumber/Defect.h"
#include "core/lumber/PhotoControls.h"
#include "core/lumber/PhotoFile.h"

namespace stavewright {

using PhotoId = Id<struct PhotoTag>;

struct Board;

struct BoardPhoto {
    PhotoId id;
    BoardFace face = BoardFace::A;
    std::string name; ///< of the file it came from, for people
    PhotoFile file;   ///< location removed, pixels untouched
    /// The board as it was measured when the marks were placed; the outline may change later.
    photo::BoardSize size;
    photo::PhotoControls controls;
    friend bool operator==(const BoardPhoto&, const BoardPhoto&) = default;
};

/// The rectangle or taper that a board's outline was measured as: its length, and how far its far
/// edge lies from y = 0 at either end.
[[nodiscard]] photo::BoardSize measuredSize(const Board& board);

[[nodiscard]] const BoardPhoto* findPhoto(const Board& board, PhotoId id);

} // namespace stavewright
