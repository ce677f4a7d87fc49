#include "core/glueup/Stave.h"

#include <cmath>

namespace stavewright::glueup {

namespace {

/// Above this the rings stand upright and no face is the heart's (common practice: quarter-sawn).
constexpr std::int32_t uprightTenths = 600;

Rect placed(const Rect& rect, const Stave& stave, Pose pose) {
    Rect lies = rect;
    if (pose.endForEnd) {
        lies.x0 = stave.length - rect.x1;
        lies.x1 = stave.length - rect.x0;
    }
    if (runsBackAcross(pose)) {
        lies.y0 = stave.width - rect.y1;
        lies.y1 = stave.width - rect.y0;
    }
    return lies;
}

std::vector<KnotPlace> placedKnots(const FaceView& face, const Stave& stave, Pose pose) {
    std::vector<KnotPlace> knots;
    knots.reserve(face.knots.size());
    for (const KnotPlace& knot : face.knots) {
        knots.push_back({placed(knot.knot, stave, pose), placed(knot.halo, stave, pose)});
    }
    return knots;
}

const FaceView& shownFace(const Stave& stave, Pose pose) {
    return pose.faceOver ? stave.faceB : stave.faceA;
}

bool isBoardsNear(Pose pose, Side side) { return (side == Side::Near) != runsBackAcross(pose); }

} // namespace

int planingInPanel(const Stave& stave, Pose pose) {
    const int asItLies = alongBoard(stave.planing);
    return pose.endForEnd != pose.faceOver ? -asItLies : asItLies;
}

int heartInPanel(const Stave& stave, Pose pose) {
    if (stave.rings.heart == HeartSide::Unknown || stave.rings.angleTenths > uprightTenths) {
        return 0;
    }
    return (stave.rings.heart == HeartSide::FaceA) != pose.faceOver ? 1 : -1;
}

std::vector<KnotPlace> shownKnots(const Stave& stave, Pose pose) {
    return placedKnots(pose.faceOver ? stave.faceB : stave.faceA, stave, pose);
}

std::vector<KnotPlace> hiddenKnots(const Stave& stave, Pose pose) {
    return placedKnots(pose.faceOver ? stave.faceA : stave.faceB, stave, pose);
}

Figure figureAt(const Stave& stave, Pose pose, Side side) {
    return isBoardsNear(pose, side) ? stave.nearEdge : stave.farEdge;
}

std::optional<EdgeLines> linesAt(const Stave& stave, Pose pose, Side side) {
    const PhotoLook& photo = shownFace(stave, pose).photo;
    std::optional<EdgeLines> lines = isBoardsNear(pose, side) ? photo.nearLines : photo.farLines;
    if (!lines || lines->surePercent < leastSurePercent) {
        return std::nullopt;
    }
    if (pose.faceOver) { // seen from its other side; end for end turns no line
        lines->angleTenths = -lines->angleTenths;
    }
    return lines;
}

std::optional<Colour> colourAt(const Stave& stave, Pose pose, Side side) {
    const ColourStrips& colours = shownFace(stave, pose).photo.colours;
    if (colours.empty()) {
        return std::nullopt;
    }
    return isBoardsNear(pose, side) ? colours.front() : colours.back();
}

std::int64_t colourStep(const Colour& a, const Colour& b) {
    const double lightness = a.lightness - b.lightness;
    const double red = a.a - b.a;
    const double yellow = a.b - b.b;
    return std::llround(std::sqrt(lightness * lightness + red * red + yellow * yellow) * 10.0);
}

} // namespace stavewright::glueup
