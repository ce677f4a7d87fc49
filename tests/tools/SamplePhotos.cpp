#include "tests/tools/SamplePhotos.h"

#include <QBuffer>
#include <QImage>

#include <algorithm>

#include "tests/boards/MadePhoto.h"

namespace stavewright::samples {

namespace {

using boards::MadeBoard;
using boards::MadeKnot;

std::optional<MadeKnot::Look> lookOf(DefectKind kind) {
    switch (kind) {
    case DefectKind::SoundKnot:
        return MadeKnot::Look::Sound;
    case DefectKind::LooseKnot:
        return MadeKnot::Look::Loose;
    case DefectKind::KnotHole:
        return MadeKnot::Look::Hole;
    default:
        return std::nullopt;
    }
}

/// Wood that shows what is marked on the board and nothing else.
MadeBoard woodOf(const Board& board, std::uint64_t seed) {
    MadeBoard made = boards::makeBoard(seed, {});
    made.board = board;
    made.knots.clear();
    made.traps.clear();
    made.sapwood = 0;
    std::uint32_t number = static_cast<std::uint32_t>(seed);
    for (const Defect& defect : board.defects) {
        const auto look = lookOf(defect.kind);
        if (!look || !defect.onA || !defect.onA->form) {
            continue;
        }
        const Ellipse& onA = *defect.onA->form;
        MadeKnot knot;
        knot.look = *look;
        knot.x = onA.centre.x.toInches();
        knot.y = onA.centre.y.toInches();
        knot.along = onA.along.toInches();
        knot.across = onA.across.toInches();
        knot.turn = static_cast<double>(onA.turnMicroradians) / 1e6;
        knot.sizeOnB = 0;
        if (defect.onB && defect.onB->form) {
            const Ellipse& onB = *defect.onB->form;
            knot.skewX = onB.centre.x.toInches() - knot.x;
            knot.skewY = onB.centre.y.toInches() - knot.y;
            knot.sizeOnB = onB.along.toInches() / knot.along;
        }
        knot.seed = ++number;
        made.knots.push_back(knot);
    }
    return made;
}

std::string jpegOf(const photo::Image& image) {
    const photo::ImageView view = image.view();
    const QImage picture(view.data, view.width, view.height, view.stride, QImage::Format_RGB888);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    constexpr int quality = 76; // small enough to travel with the program
    picture.save(&buffer, "jpeg", quality);
    return bytes.toStdString();
}

} // namespace

void addPhotos(Document& job, int count, std::uint64_t seed, int pixels) {
    for (std::size_t i = 0;
         i < std::min<std::size_t>(job.boards.size(), static_cast<std::size_t>(count)); ++i) {
        Board& board = job.boards[i];
        const MadeBoard wood = woodOf(board, seed + i);
        for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
            boards::PhotoWish wish;
            wish.width = pixels;
            wish.height = pixels * 3 / 10; // long and low, as one cuts it
            wish.noise = 1;
            wish.askew = 0.6;
            const boards::MadePhoto made = boards::photographOf(
                wood, face, seed + 10 * i + (face == BoardFace::A ? 1 : 2), wish);
            BoardPhoto photo;
            photo.id = job.takeId<PhotoId>();
            photo.face = face;
            photo.name = "board-" + board.mark + (face == BoardFace::A ? "-a.jpg" : "-b.jpg");
            photo.file = PhotoFile::of(jpegOf(made.image));
            photo.size = measuredSize(board);
            photo.controls.width = wish.width;
            photo.controls.height = wish.height;
            using photo::Corner;
            for (const Corner corner :
                 {Corner::DatumNear, Corner::DatumFar, Corner::EndNear, Corner::EndFar}) {
                const Point place = photo::placeOf(corner, photo.size);
                photo.controls.corners.push_back(
                    {corner, photo::PhotoPoint::at(
                                 made.camera.shows(place.x.toInches(), place.y.toInches()))});
            }
            board.photos.push_back(photo);
        }
    }
}

} // namespace stavewright::samples
