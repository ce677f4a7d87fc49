#include "core/glueup/LaidPlace.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "core/glueup/Stave.h"

namespace stavewright::glueup {

namespace {

/// `length` as a share of `from`, of `to`.
Length inProportion(Length length, Length from, Length to) {
    const double share =
        static_cast<double>(length.inNanometres()) / static_cast<double>(from.inNanometres());
    return Length::nanometres(std::llround(share * static_cast<double>(to.inNanometres())));
}

} // namespace

LaidPlace::LaidPlace(const LaidOut& laid, std::size_t place)
    : m_photo(laid.photo.id)
    , m_face(laid.photo.face)
    , m_stave(laid.staves[place]) {
    assert(laid.joints.size() + 1 == laid.staves.size());
    // Staves are still too long when they are laid out: their net length lies in the middle.
    const Length spare = (laid.photo.size.length - m_stave.net.length()) / 2;
    const bool isFirst = place == 0;
    const bool isLast = place == laid.joints.size();
    const JointLie before = isFirst ? JointLie{} : laid.lieOf(place - 1);
    const JointLie behind = isLast ? JointLie{} : laid.lieOf(place);
    const Length near = isFirst ? Length() : laid.joints[place - 1] + before.gap / 2;
    const Length far = isLast ? laid.photo.size.widthAtDatum : laid.joints[place] - behind.gap / 2;
    m_band = {spare, near, spare + m_stave.net.length(), far};
    // Its edges are parallel: where its joints lean differently, it lay between the two. The outer
    // edges were marked as they lay, and stand straight in the picture.
    const Length lean = (before.lean + behind.lean) / 2;
    m_slope = lean.toMillimetres() / std::max(1.0, laid.photo.size.length.toMillimetres());
}

Length LaidPlace::risenAt(Length x) const {
    const Length middle = (m_band.x0 + m_band.x1) / 2;
    return Length::nanometres(
        std::llround(m_slope * static_cast<double>((x - middle).inNanometres())));
}

Point LaidPlace::toLaid(Point onBoard) const {
    const Point local = toLocal(m_stave.frame, onBoard);
    Length x = local.x - m_stave.net.x0;
    Length y = local.y - m_stave.net.y0;
    if (m_stave.pose.endForEnd) {
        x = m_stave.net.length() - x;
    }
    if (runsBackAcross(m_stave.pose)) {
        y = m_stave.net.width() - y;
    }
    const Length along = m_band.x0 + x;
    return {along,
            m_band.y0 + risenAt(along) + inProportion(y, m_stave.net.width(), m_band.width())};
}

Point LaidPlace::toBoard(Point inPicture) const {
    Length x = inPicture.x - m_band.x0;
    Length y = inProportion(inPicture.y - risenAt(inPicture.x) - m_band.y0, m_band.width(),
                            m_stave.net.width());
    if (m_stave.pose.endForEnd) {
        x = m_stave.net.length() - x;
    }
    if (runsBackAcross(m_stave.pose)) {
        y = m_stave.net.width() - y;
    }
    return toOuter(m_stave.frame, Point{m_stave.net.x0 + x, m_stave.net.y0 + y});
}

BoardFace shownOfBoard(const LaidOut& laid, const LaidStave& stave) {
    return stave.pose.faceOver ? other(laid.photo.face) : laid.photo.face;
}

bool isSameWood(const LaidStave& stave, BoardId board, const Frame& frame, const Rect& net) {
    if (stave.board != board || net.isEmpty()) {
        return false;
    }
    const Rect there = boundingBox(toLocal(stave.frame, toOuter(frame, net)));
    const Length along = std::min(there.x1, stave.net.x1) - std::max(there.x0, stave.net.x0);
    const Length across = std::min(there.y1, stave.net.y1) - std::max(there.y0, stave.net.y0);
    return along > Length() && across > Length() &&
           along.toMillimetres() * across.toMillimetres() >=
               0.9 * net.length().toMillimetres() * net.width().toMillimetres();
}

std::optional<LaidPlace> laidPlaceOf(const std::vector<LaidOut>& laidOut, BoardId board,
                                     BoardFace face, const Frame& frame, const Rect& net) {
    const LaidOut* best = nullptr;
    std::size_t bestPlace = 0;
    for (const LaidOut& laid : laidOut) {
        for (std::size_t place = 0; place < laid.staves.size(); ++place) {
            const LaidStave& stave = laid.staves[place];
            if (shownOfBoard(laid, stave) == face && isSameWood(stave, board, frame, net) &&
                (best == nullptr || best->photo.id.value < laid.photo.id.value)) {
                best = &laid;
                bestPlace = place;
            }
        }
    }
    return best != nullptr ? std::optional(LaidPlace(*best, bestPlace)) : std::nullopt;
}

Board asBoard(const LaidOut& laid) {
    const Length length = laid.photo.size.length;
    const Length width = laid.photo.size.widthAtDatum;
    Board board;
    board.id = BoardId{laid.photo.id.value};
    board.outline = {{Length(), Length()}, {length, Length()}, {length, width}, {Length(), width}};
    board.photos = {laid.photo};
    return board;
}

std::vector<Board> withLaidOut(std::vector<Board> boards, const std::vector<LaidOut>& laidOut) {
    for (const LaidOut& laid : laidOut) {
        boards.push_back(asBoard(laid));
    }
    return boards;
}

const LaidOut* findPicture(const std::vector<LaidOut>& laidOut, BoardId picture) {
    const auto found = std::find_if(laidOut.begin(), laidOut.end(), [&](const LaidOut& laid) {
        return laid.photo.id.value == picture.value;
    });
    return found != laidOut.end() ? &*found : nullptr;
}

} // namespace stavewright::glueup
