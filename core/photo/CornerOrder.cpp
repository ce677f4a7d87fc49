#include "core/photo/CornerOrder.h"

#include <algorithm>
#include <cmath>

namespace stavewright::photo {

Result<std::vector<CornerMark>> cornersInAnyOrder(const std::array<Pixels, 4>& corners,
                                                  const BoardSize& board) {
    Pixels middle;
    for (const Pixels& corner : corners) {
        middle.x += corner.x / 4;
        middle.y += corner.y / 4;
    }
    // Clockwise as seen, y being down.
    std::array<Pixels, 4> ring = corners;
    std::sort(ring.begin(), ring.end(), [&](const Pixels& a, const Pixels& b) {
        return std::atan2(a.y - middle.y, a.x - middle.x) <
               std::atan2(b.y - middle.y, b.x - middle.x);
    });
    const auto distance = [&](std::size_t a, std::size_t b) {
        return std::hypot(ring[a % 4].x - ring[b % 4].x, ring[a % 4].y - ring[b % 4].y);
    };
    for (std::size_t i = 0; i < 4; ++i) {
        if (!(distance(i, i + 1) > 1) || !std::isfinite(ring[i].x + ring[i].y)) {
            return Error{
                ErrorCode::BadInput,
                "Two of the four corners are the same place; each needs a place of its own.",
                {}};
        }
    }
    // The long sides of the board are the long ones in the picture; its datum end is at the left,
    // or at the bottom. Clockwise from the far corner of the datum end: far edge, far end, near
    // edge.
    const bool firstSideIsLong = distance(0, 1) + distance(2, 3) > distance(1, 2) + distance(3, 0);
    const bool boardIsLong = board.length >= std::max(board.widthAtDatum, board.widthAtFar);
    std::size_t start = firstSideIsLong == boardIsLong ? 0 : 1;
    const double dx = ring[(start + 1) % 4].x - ring[start].x;
    const double dy = ring[(start + 1) % 4].y - ring[start].y;
    const bool startIsDatum = std::abs(dx) >= std::abs(dy) ? dx > 0 : dy < 0;
    start += startIsDatum ? 0 : 2;
    constexpr std::array<Corner, 4> round = {Corner::DatumFar, Corner::EndFar, Corner::EndNear,
                                             Corner::DatumNear};
    std::vector<CornerMark> marks;
    for (std::size_t i = 0; i < 4; ++i) {
        marks.push_back({round[i], PhotoPoint::at(ring[(start + i) % 4])});
    }
    return marks;
}

Corner atOtherEdge(Corner corner) {
    switch (corner) {
    case Corner::DatumNear:
        return Corner::DatumFar;
    case Corner::DatumFar:
        return Corner::DatumNear;
    case Corner::EndNear:
        return Corner::EndFar;
    case Corner::EndFar:
        return Corner::EndNear;
    }
    return corner;
}

PhotoControls seenFromOtherSide(PhotoControls controls) {
    constexpr std::array<Corner, 4> opposite = {Corner::EndFar, Corner::EndNear, Corner::DatumFar,
                                                Corner::DatumNear};
    for (CornerMark& mark : controls.corners) {
        mark.corner = opposite[static_cast<std::size_t>(mark.corner)];
    }
    for (EdgeMark& mark : controls.edges) {
        mark.edge = mark.edge == LongEdge::Near ? LongEdge::Far : LongEdge::Near;
    }
    controls.tape.clear();
    return controls;
}

} // namespace stavewright::photo
