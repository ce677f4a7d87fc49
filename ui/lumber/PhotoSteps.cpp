#include "ui/lumber/PhotoSteps.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/photo/CornerOrder.h"

namespace stavewright::ui {

Edit replacingPhotos(const Board& board, std::vector<BoardPhoto> photos) {
    return Edit{ReplacePhotos{board.id, std::move(photos)}};
}

Edit addingPhotos(const Document& document, const Board& board, std::vector<BoardPhoto> fresh) {
    std::vector<BoardPhoto> photos = board.photos;
    std::int64_t next = document.nextId;
    for (BoardPhoto& photo : fresh) {
        photo.id = PhotoId{next++};
        photos.push_back(std::move(photo));
    }
    return replacingPhotos(board, std::move(photos));
}

Edit replacingPhoto(const Board& board, const BoardPhoto& photo) {
    std::vector<BoardPhoto> photos = board.photos;
    for (BoardPhoto& each : photos) {
        if (each.id == photo.id) {
            each = photo;
        }
    }
    return replacingPhotos(board, std::move(photos));
}

Edit removingPhoto(const Board& board, PhotoId id) {
    std::vector<BoardPhoto> photos = board.photos;
    std::erase_if(photos, [id](const BoardPhoto& photo) { return photo.id == id; });
    return replacingPhotos(board, std::move(photos));
}

BoardPhoto asOfOtherFace(BoardPhoto photo) {
    photo.face = other(photo.face);
    for (photo::CornerMark& mark : photo.controls.corners) {
        mark.corner = photo::atOtherEdge(mark.corner);
    }
    for (photo::EdgeMark& mark : photo.controls.edges) {
        mark.edge =
            mark.edge == photo::LongEdge::Near ? photo::LongEdge::Far : photo::LongEdge::Near;
    }
    return photo;
}

int overlapPercent(const Polygon& a, const Polygon& b) {
    const Rect boxA = boundingBox(a);
    const Rect boxB = boundingBox(b);
    if (!boxA.overlaps(boxB)) {
        return 0;
    }
    const Area common = intersection(a, b).area;
    const Area all = areaOf(a) + areaOf(b) - common;
    if (all <= Area()) {
        return 0;
    }
    return static_cast<int>((common * 100).inSquareNanometres() / all.inSquareNanometres());
}

} // namespace stavewright::ui
