#pragma once
// Random changes of a board's photographs.

#include <algorithm>
#include <rapidcheck.h>

#include "core/document/Edit.h"
#include "tests/property/Generators.h"

namespace stavewright::property {

inline photo::PhotoPoint anyPlace() {
    return {*rc::gen::inRange<std::int64_t>(0, 4'000'001),
            *rc::gen::inRange<std::int64_t>(0, 3'000'001)};
}

/// Photographs as they are added, straightened, turned over and taken off again. The same few files
/// come back, as they do when one is added twice.
inline Edit anyPhotoEdit(const Document& document, const Board& board) {
    std::vector<BoardPhoto> photos = board.photos;
    const int choice = photos.empty() ? 0 : *rc::gen::inRange(0, 9);
    if (choice == 0) {
        BoardPhoto made;
        made.id = PhotoId{document.nextId};
        made.face = *rc::gen::element(BoardFace::A, BoardFace::B);
        made.name = "photo.jpg";
        made.file = PhotoFile::of(std::string(100, *rc::gen::element('a', 'b', 'c', 'd')));
        made.size = measuredSize(board);
        made.controls.width = 4'000;
        made.controls.height = 3'000;
        photos.push_back(made);
        return Edit{ReplacePhotos{board.id, photos}};
    }
    BoardPhoto& one = photos[*rc::gen::inRange<std::size_t>(0, photos.size())];
    switch (choice) {
    case 1:
        one.controls.corners = {{photo::Corner::DatumNear, anyPlace()},
                                {photo::Corner::EndFar, anyPlace()}};
        break;
    case 2:
        one.controls.tape.push_back({anyPlace(), *lengthWithin(0, 3'000)});
        break;
    case 3:
        one.controls.edges.push_back(
            {*rc::gen::element(photo::LongEdge::Near, photo::LongEdge::Far), anyPlace()});
        break;
    case 4:
        one.face = other(one.face);
        one.size.widthAtFar = *lengthWithin(50, 400);
        break;
    case 5: {
        const PhotoId gone = one.id;
        std::erase_if(photos, [&](const BoardPhoto& each) { return each.id == gone; });
        break;
    }
    case 6: { // the same number never twice in one photograph
        const int number = *rc::gen::inRange(1, 4);
        std::erase_if(one.controls.spots,
                      [&](const photo::SpotMark& spot) { return spot.number == number; });
        one.controls.spots.push_back({number, anyPlace()});
        break;
    }
    case 7:
        std::reverse(photos.begin(), photos.end());
        break;
    default:
        if (!one.controls.tape.empty()) {
            one.controls.tape.back().at = anyPlace();
        }
        break;
    }
    return Edit{ReplacePhotos{board.id, photos}};
}

} // namespace stavewright::property
