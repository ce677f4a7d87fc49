#include "tests/boards/Camera.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stavewright::boards {

photo::Pixels Camera::shows(double boardX, double boardY) const {
    // From the place looked at; y up on the board, down in the picture, z away from the camera.
    const double sign = mirrored ? 1 : -1;
    std::array<double, 3> p = {boardX - x, sign * (boardY - y), 0};
    const auto turn = [&](std::size_t i, std::size_t j, double angle) {
        const double a = p[i];
        const double b = p[j];
        p[i] = a * std::cos(angle) - b * std::sin(angle);
        p[j] = a * std::sin(angle) + b * std::cos(angle);
    };
    turn(0, 2, tilt);
    turn(1, 2, lean);
    turn(0, 1, roll);
    const double depth = p[2] + distance;
    const double u = focal * p[0] / depth;
    const double v = focal * p[1] / depth;
    // seen = ideal (1 - barrel r^2 / corner^2), the usual way distortion is told: so it is not the
    // very formula that is fitted.
    const double corner = std::hypot(width, height) / 2;
    const double shrink = 1 - barrel * (u * u + v * v) / (corner * corner);
    return {width / 2.0 + u * shrink, height / 2.0 + v * shrink};
}

Camera::Place Camera::sees(photo::Pixels at) const {
    double u = at.x - width / 2.0;
    double v = at.y - height / 2.0;
    const double corner = std::hypot(width, height) / 2;
    const double seen = std::hypot(u, v);
    double ideal = seen;
    for (int round = 0; round < 20; ++round) {
        const double r = ideal / corner;
        ideal -= (ideal * (1 - barrel * r * r) - seen) / (1 - 3 * barrel * r * r);
    }
    if (seen > 0) {
        u *= ideal / seen;
        v *= ideal / seen;
    }
    // The ray, turned back into the board's own directions; then on to the plane.
    std::array<double, 3> ray = {u, v, focal};
    std::array<double, 3> away = {0, 0, distance};
    const auto turnBack = [](std::array<double, 3>& p, std::size_t i, std::size_t j, double angle) {
        const double a = p[i];
        const double b = p[j];
        p[i] = a * std::cos(angle) + b * std::sin(angle);
        p[j] = -a * std::sin(angle) + b * std::cos(angle);
    };
    for (std::array<double, 3>* p : {&ray, &away}) {
        turnBack(*p, 0, 1, roll);
        turnBack(*p, 1, 2, lean);
        turnBack(*p, 0, 2, tilt);
    }
    const double far = away[2] / ray[2];
    const double sign = mirrored ? 1 : -1;
    return {x + ray[0] * far - away[0], y + sign * (ray[1] * far - away[1])};
}

double Hand::between(double low, double high) {
    m_state = m_state * 6364136223846793005U + 1442695040888963407U;
    return low + (high - low) * static_cast<double>(m_state >> 33) / 2147483648.0;
}

photo::PhotoPoint Hand::mark(photo::Pixels at, double off) {
    const double angle = between(0, 6.283185307);
    const double far = between(0, off);
    return photo::PhotoPoint::at({at.x + far * std::cos(angle), at.y + far * std::sin(angle)});
}

MapError errorOf(const photo::PhotoMap& map, const Camera& camera, const photo::BoardSize& board,
                 double from, double to) {
    MapError error;
    int count = 0;
    for (int i = 0; i <= 40; ++i) {
        const double x = from + (to - from) * i / 40;
        const double width =
            board.widthAtDatum.toInches() +
            (board.widthAtFar - board.widthAtDatum).toInches() * x / board.length.toInches();
        for (int j = 0; j <= 6; ++j) {
            const double y = width * j / 6;
            const std::optional<Point> found = map.toBoard(camera.shows(x, y));
            const double off =
                found ? std::hypot(found->x.toInches() - x, found->y.toInches() - y) : 1e6;
            error.rms += off * off;
            error.worst = std::max(error.worst, off);
            ++count;
        }
    }
    error.rms = std::sqrt(error.rms / count);
    return error;
}

Length inches(double n) { return Length::nanometres(std::llround(n * 25.4e6)); }

photo::CornerMark cornerSeen(const Camera& camera, const photo::BoardSize& board,
                             photo::Corner corner, Hand& hand, double off) {
    const Point at = placeOf(corner, board);
    return {corner, hand.mark(camera.shows(at.x.toInches(), at.y.toInches()), off)};
}

photo::PhotoControls cornersSeen(const Camera& camera, const photo::BoardSize& board, Hand& hand,
                                 double off) {
    using photo::Corner;
    photo::PhotoControls controls{camera.width, camera.height, {}, {}, {}, {}};
    for (const Corner corner :
         {Corner::DatumNear, Corner::DatumFar, Corner::EndNear, Corner::EndFar}) {
        controls.corners.push_back(cornerSeen(camera, board, corner, hand, off));
    }
    return controls;
}

void markEdges(photo::PhotoControls& controls, const Camera& camera, const photo::BoardSize& board,
               Hand& hand, double from, double to, int count, double off) {
    const double atDatum = board.widthAtDatum.toInches();
    const double taper = atDatum - board.widthAtFar.toInches();
    for (int i = 0; i < count; ++i) {
        const double x = from + (to - from) * i / (count - 1);
        const double far = atDatum - taper * x / board.length.toInches();
        controls.edges.push_back({photo::LongEdge::Near, hand.mark(camera.shows(x, 0), off)});
        controls.edges.push_back({photo::LongEdge::Far, hand.mark(camera.shows(x, far), off)});
    }
}

Camera handHeld(Hand& hand, const Stand& stand) {
    Camera camera;
    camera.x = hand.between(stand.leastX, stand.mostX);
    camera.y = hand.between(stand.leastY, stand.mostY);
    camera.distance = hand.between(stand.nearest, stand.farthest);
    camera.tilt = hand.between(-0.2, 0.2);
    camera.lean = hand.between(-0.5, 0.5);
    camera.roll = hand.between(-0.1, 0.1);
    return camera;
}

} // namespace stavewright::boards
