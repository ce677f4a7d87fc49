#include "core/lumber/BoardPhoto.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/Board.h"

namespace stavewright {

photo::BoardSize measuredSize(const Board& board) {
    const Rect box = boundingBox(board.outline);
    const auto farEdgeAt = [&](Length x) {
        const auto across = acrossAt(board.outline, x);
        return across ? across->to : box.y1;
    };
    constexpr std::size_t straight = 4; // corners of a board without wane or crook
    if (board.outline.size() == straight) {
        return {box.length(), farEdgeAt(box.x0), farEdgeAt(box.x1)};
    }
    // Waned or broken corners make the very ends narrower than the tape said; so the far edge is
    // carried on to the ends from a tenth inside.
    const Length nearDatum = farEdgeAt(box.x0 + box.length() / 10);
    const Length nearFar = farEdgeAt(box.x1 - box.length() / 10);
    const Length more = (nearFar - nearDatum) / 8;
    return {box.length(), nearDatum - more, nearFar + more};
}

const BoardPhoto* findPhoto(const Board& board, PhotoId id) {
    const auto found = std::find_if(board.photos.begin(), board.photos.end(),
                                    [id](const BoardPhoto& photo) { return photo.id == id; });
    return found == board.photos.end() ? nullptr : &*found;
}

} // namespace stavewright
