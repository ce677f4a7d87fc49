#include "ui/photo/FaceKey.h"

namespace stavewright::ui {

namespace {

void append(std::string& key, std::int64_t value) {
    key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

void append(std::string& key, const photo::PhotoPoint& at) {
    append(key, at.x);
    append(key, at.y);
}

void append(std::string& key, const BoardPhoto& photo) {
    constexpr std::int64_t end = -1; // of a list
    key += photo.file.sha256();
    for (const Length length :
         {photo.size.length, photo.size.widthAtDatum, photo.size.widthAtFar}) {
        append(key, length.inNanometres());
    }
    for (const photo::CornerMark& mark : photo.controls.corners) {
        append(key, static_cast<std::int64_t>(mark.corner));
        append(key, mark.at);
    }
    append(key, end);
    for (const photo::TapeReading& mark : photo.controls.tape) {
        append(key, mark.at);
        append(key, mark.reading.inNanometres());
    }
    append(key, end);
    for (const photo::EdgeMark& mark : photo.controls.edges) {
        append(key, static_cast<std::int64_t>(mark.edge));
        append(key, mark.at);
    }
    append(key, end);
    for (const photo::SpotMark& mark : photo.controls.spots) {
        append(key, mark.number);
        append(key, mark.at);
    }
    append(key, end);
}

} // namespace

std::string photosKey(const Board& board, BoardFace face) {
    std::string key;
    for (const BoardPhoto& photo : board.photos) {
        if (photo.face == face) {
            append(key, photo);
        }
    }
    if (key.empty()) {
        return key;
    }
    key += face == BoardFace::A ? 'A' : 'B';
    for (const Point& corner : board.outline) {
        append(key, corner.x.inNanometres());
        append(key, corner.y.inNanometres());
    }
    return key;
}

std::string photosKey(const Board& board) {
    return photosKey(board, BoardFace::A) + '/' + photosKey(board, BoardFace::B);
}

} // namespace stavewright::ui
