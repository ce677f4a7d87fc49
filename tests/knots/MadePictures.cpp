#include "tests/knots/MadePictures.h"

#include "core/geometry/PolygonOps.h"
#include "core/photo/Resample.h"
#include "core/photo/Straighten.h"
#include "tests/boards/Noise.h"

namespace stavewright::knots {

boards::MadePhoto madePhoto(std::uint64_t seed, int width, boards::MadeBoard& board, bool varied) {
    boards::Chance chance(seed + 1000);
    static_cast<void>(chance.bits());
    boards::BoardWish wish;
    wish.inchesLong = chance.between(16, 60);
    wish.inchesWide = chance.between(4.5, 10);
    wish.knots = chance.whole(0, 10);
    wish.dark = chance.happens(0.3);
    wish.varied = varied;
    board = boards::makeBoard(seed, wish);
    boards::PhotoWish photo;
    photo.width = width;
    photo.height = width * 3 / 4;
    photo.shadow = chance.happens(0.35);
    photo.barrel = chance.happens(0.3) ? 0.01 : 0;
    photo.noise = chance.between(1, 6);
    return boards::photographOf(board, BoardFace::A, seed, photo);
}

KnotPicture madePicture(std::uint64_t seed, int width, bool varied) {
    boards::MadeBoard board;
    const boards::MadePhoto made = madePhoto(seed, width, board, varied);
    KnotPicture picture;
    picture.name = "made " + std::to_string(seed);
    picture.board = picture.name;
    picture.kind = "made";
    picture.fillsPicture = true;
    const auto fit = photo::straighten(made.controls, made.size);
    if (!fit) {
        return picture;
    }
    // The controls take the near edge of the outline's box as y = 0.
    const Rect box = boundingBox(board.board.outline);
    const Rect shown{Length(), Length(), made.size.length, made.size.widthAtDatum};
    const photo::PictureSize size = photo::naturalSize(fit.value().map, shown, 4e6);
    picture.image =
        photo::resampled(made.image.view(), fit.value().map, shown, size.width, size.height);
    const photo::PhotoMap flat = photo::PhotoMap::ofStraightened(shown, size.width, size.height);
    for (const Defect& defect : board.board.defects) {
        const bool knot = defect.kind == DefectKind::SoundKnot ||
                          defect.kind == DefectKind::LooseKnot ||
                          defect.kind == DefectKind::KnotHole;
        const Rect mark = boundingBox(defect.onA->outline);
        const auto a = flat.toPhoto({mark.x0, mark.y1 - box.y0});
        const auto b = flat.toPhoto({mark.x1, mark.y0 - box.y0});
        if (a && b) {
            picture.marks.push_back({{a->x, a->y, b->x, b->y},
                                     knot ? TrueMark::Counts::Knot : TrueMark::Counts::NoKnot,
                                     defect.kind});
        }
    }
    return picture;
}

} // namespace stavewright::knots
