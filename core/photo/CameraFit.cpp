#include "core/photo/CameraFit.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stavewright::photo {

namespace {

// What cameras are like (common practice, no source): a phone's main lens, 24 to 28 mm in terms of
// a 36 x 24 mm picture, has a focal length of 1.2 half diagonals.
constexpr double usualFocal = 1.2;
constexpr double focalOff = 0.3; // in the logarithm
constexpr double lensOff = 0.02; // of the radius at the picture's corner
// Of square pixels seen through the middle: a whole picture is, a cropped one not quite. Four
// corners do without that, and may have been set in a cropped picture.
constexpr double squareOffWithCorners = 0.01;
constexpr double squareOffWithout = 0.004;
/// A spot is marked as exactly as the tape.
constexpr double spotPixels = 2;
/// Stands for a place beyond the horizon.
constexpr double hopeless = 1e9;

/// How far the map is from what a camera with square pixels can see: the board's two directions,
/// turned back through the camera, should be square to each other and of one scale.
std::array<double, 2> cameraResiduals(const Vector& h) {
    const double f = std::exp(h[focalAt]);
    // First two columns of the inverse (a common factor does not matter).
    const std::array<double, 3> along = {h[4] - h[5] * h[7], h[5] * h[6] - h[3],
                                         f * (h[3] * h[7] - h[4] * h[6])};
    const std::array<double, 3> across = {h[2] * h[7] - h[1], h[0] - h[2] * h[6],
                                          f * (h[1] * h[6] - h[0] * h[7])};
    const double la = std::hypot(along[0], along[1], along[2]);
    const double lc = std::hypot(across[0], across[1], across[2]);
    const double dot = along[0] * across[0] + along[1] * across[1] + along[2] * across[2];
    return {dot / (la * lc), std::log(la / lc)};
}

/// The best turn, size and shift alone; `mirrored` for a face seen through from the other one.
std::optional<Vector> roughStart(const CameraProblem& problem, bool mirrored) {
    const double half = std::hypot(problem.frame.width, problem.frame.height) / 2;
    const double flip = mirrored ? 1 : -1;
    Normal normal(4);
    Vector right(4);
    for (const Constraint& c : problem.constraints) {
        if (c.minus) {
            continue;
        }
        const double u = (c.at.x - problem.frame.width / 2.0) / half;
        const double v = (c.at.y - problem.frame.height / 2.0) / half;
        // With unknowns p, q, s, t: x = p u - q v + s, y = flip (q u + p v) + t.
        const std::array<double, 4> row = {c.a * u + c.b * flip * v, -c.a * v + c.b * flip * u, c.a,
                                           c.b};
        for (std::size_t i = 0; i < 4; ++i) {
            for (std::size_t j = 0; j < 4; ++j) {
                normal.at(i, j) += row[i] * row[j];
            }
            right[i] += row[i] * c.c;
        }
    }
    const std::optional<Vector> s = solve(normal, right);
    if (!s) {
        return std::nullopt;
    }
    const Vector& z = *s;
    return Vector{z[0], -z[1], z[2], flip * z[1], flip * z[0], z[3], 0, 0, 0, std::log(usualFocal)};
}

} // namespace

PhotoMap CameraProblem::mapOf(const Vector& unknowns) const {
    PhotoMap::Values values = frame;
    std::copy_n(unknowns.begin(), 8, values.h.begin());
    values.lens = unknowns[lensAt];
    return PhotoMap(values);
}

double CameraProblem::off(const Constraint& constraint) const {
    return std::hypot(constraint.pixelsOff * perPixel, constraint.boardOff);
}

std::optional<double> CameraProblem::distance(const Constraint& constraint, const PhotoMap& map) {
    const auto found = map.toBoardPlain(constraint.at);
    if (!found) {
        return std::nullopt;
    }
    double distance = constraint.a * found->x + constraint.b * found->y - constraint.c;
    if (constraint.minus) {
        const auto other = map.toBoardPlain(*constraint.minus);
        if (!other) {
            return std::nullopt;
        }
        distance -= constraint.a * other->x + constraint.b * other->y;
    }
    return distance;
}

Vector CameraProblem::residuals(const Vector& unknowns) const {
    const PhotoMap map = mapOf(unknowns);
    Vector all;
    all.reserve(constraints.size() + 4);
    for (const Constraint& constraint : constraints) {
        const std::optional<double> d = distance(constraint, map);
        all.push_back(d ? *d / off(constraint) : hopeless);
    }
    for (const double residual : cameraResiduals(unknowns)) {
        all.push_back(residual / (allCorners ? squareOffWithCorners : squareOffWithout));
    }
    all.push_back(unknowns[lensAt] / lensOff);
    all.push_back((unknowns[focalAt] - std::log(usualFocal)) / focalOff);
    return all;
}

std::optional<Fit> CameraProblem::fit() {
    const double half = std::hypot(frame.width, frame.height) / 2;
    std::optional<Fit> best;
    double bestPerPixel = 0;
    for (const bool mirrored : {false, true}) {
        const std::optional<Vector> start = roughStart(*this, mirrored);
        if (!start) {
            continue;
        }
        perPixel = std::hypot((*start)[0], (*start)[3]) / half;
        if (!(perPixel > 1e-9) || !std::isfinite(perPixel)) {
            continue;
        }
        Fit fit = leastSquares([&](const Vector& u) { return residuals(u); }, *start);
        if (!best || fit.cost < best->cost) {
            best = std::move(fit);
            bestPerPixel = perPixel;
        }
    }
    perPixel = bestPerPixel;
    return best;
}

Fit CameraProblem::leaningOtherwise(const Fit& fit) const {
    // The perspective across the board turned round; the direction across follows from it.
    Vector start = fit.unknowns;
    const double turn = std::atan2(start[3], start[0]);
    const double along = start[6] * std::cos(turn) + start[7] * std::sin(turn);
    const double across = start[6] * std::sin(turn) - start[7] * std::cos(turn);
    start[6] = along * std::cos(turn) - across * std::sin(turn);
    start[7] = along * std::sin(turn) + across * std::cos(turn);
    return leastSquares([&](const Vector& u) { return residuals(u); }, start);
}

Vector FaceProblem::unknownsOf(const Vector& all, std::size_t photo) const {
    const auto from = all.begin() + static_cast<std::ptrdiff_t>(photo * unknownCount);
    return {from, from + unknownCount};
}

Vector FaceProblem::residuals(const Vector& unknowns) const {
    Vector all;
    std::vector<PhotoMap> maps;
    for (std::size_t i = 0; i < photos.size(); ++i) {
        const Vector own = unknownsOf(unknowns, i);
        const Vector part = photos[i].residuals(own);
        all.insert(all.end(), part.begin(), part.end());
        maps.push_back(photos[i].mapOf(own));
    }
    for (const SharedSpot& spot : spots) {
        const auto a = maps[spot.left].toBoardPlain(spot.inLeft);
        const auto b = maps[spot.right].toBoardPlain(spot.inRight);
        const double off =
            spotPixels * std::hypot(photos[spot.left].perPixel, photos[spot.right].perPixel);
        all.push_back(a && b ? (b->x - a->x) / off : hopeless);
        all.push_back(a && b ? (b->y - a->y) / off : hopeless);
    }
    return all;
}

} // namespace stavewright::photo
