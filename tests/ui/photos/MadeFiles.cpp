#include "tests/ui/photos/MadeFiles.h"

#include <QBuffer>
#include <QImage>

#include "core/geometry/PolygonOps.h"
#include "core/shop/Presets.h"

namespace stavewright::testing_photos {

QByteArray jpegOf(const photo::Image& image, int quality) {
    const photo::ImageView view = image.view();
    const QImage picture(view.data, view.width, view.height, view.stride, QImage::Format_RGB888);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    picture.save(&buffer, "jpeg", quality);
    return bytes;
}

MadeJob madeJob(std::uint64_t seed, const boards::BoardWish& wish, const boards::PhotoWish& photo) {
    MadeJob made;
    made.truth = boards::makeBoard(seed, wish);
    made.faceA = boards::photographOf(made.truth, BoardFace::A, seed, photo);
    made.faceB = boards::photographOf(made.truth, BoardFace::B, seed + 1, photo);
    Document& document = made.document;
    document.info.title = "Photographs";
    document.shop = inchShop();
    document.nextId = presetRules::last + 1;
    Board board = made.truth.board;
    board.id = document.takeId<BoardId>();
    board.mark = "1";
    board.species = "white_oak";
    board.thinnest = board.quarter.nominal();
    // The near edge of a made board begins inside its frame; a job's board, as its photographs are
    // measured, begins at y = 0.
    const Length near = boundingBox(board.outline).y0;
    for (Point& corner : board.outline) {
        corner.y -= near;
    }
    board.defects.clear();
    board.lookedAt.clear();
    document.boards = {board};
    return made;
}

BoardPhoto markedPhoto(const boards::MadePhoto& made, BoardFace face) {
    BoardPhoto photo;
    photo.face = face;
    photo.name = "made.jpg";
    const QByteArray bytes = jpegOf(made.image);
    photo.file = PhotoFile::of(bytes.toStdString());
    photo.size = made.size;
    photo.controls = made.controls;
    return photo;
}

} // namespace stavewright::testing_photos
