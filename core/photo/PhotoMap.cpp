#include "core/photo/PhotoMap.h"

#include <cmath>

namespace stavewright::photo {

namespace {

/// Flatter than this is at the horizon: a pixel there would stand for a hundred board lengths.
constexpr double horizon = 1e-3;

std::array<double, 9> inverseOf(const std::array<double, 8>& h) {
    // The adjugate: a common factor does not matter, but its sign does, so that w stays positive in
    // front of the camera.
    std::array<double, 9> a = {
        h[4] - h[5] * h[7],        h[2] * h[7] - h[1],        h[1] * h[5] - h[2] * h[4],
        h[5] * h[6] - h[3],        h[0] - h[2] * h[6],        h[2] * h[3] - h[0] * h[5],
        h[3] * h[7] - h[4] * h[6], h[1] * h[6] - h[0] * h[7], h[0] * h[4] - h[1] * h[3]};
    const double determinant = h[0] * a[0] + h[1] * a[3] + h[2] * a[6];
    for (double& value : a) {
        value /= determinant;
    }
    return a;
}

/// The radius on the sensor whose light comes from radius `ideal` of a lens without distortion.
std::optional<double> distorted(double ideal, double lens) {
    double r = ideal;
    for (int round = 0; round < 30; ++round) {
        const double slope = 1 + 3 * lens * r * r;
        if (slope <= 0.05) {
            return std::nullopt;
        }
        const double step = (r * (1 + lens * r * r) - ideal) / slope;
        r -= step;
        if (std::abs(step) < 1e-13) {
            return r >= 0 ? std::optional(r) : std::nullopt;
        }
    }
    return std::nullopt;
}

Length lengthOf(double inScale, Length scale) {
    return Length::nanometres(std::llround(inScale * static_cast<double>(scale.inNanometres())));
}

} // namespace

PhotoMap::PhotoMap(const Values& values)
    : m_values(values)
    , m_inverse(inverseOf(values.h))
    , m_halfDiagonal(std::hypot(values.width, values.height) / 2) {}

PhotoMap PhotoMap::ofStraightened(const Rect& shown, int width, int height) {
    Values values;
    values.width = width;
    values.height = height;
    const double scale = static_cast<double>(values.scale.inNanometres());
    const double half = std::hypot(width, height) / 2;
    const auto inScale = [&](Length l) { return static_cast<double>(l.inNanometres()) / scale; };
    values.h = {inScale(shown.length()) * half / width,
                0,
                (inScale(shown.x0) + inScale(shown.x1)) / 2,
                0,
                -inScale(shown.width()) * half / height,
                (inScale(shown.y0) + inScale(shown.y1)) / 2,
                0,
                0};
    return PhotoMap(values);
}

std::optional<PhotoMap::Plain> PhotoMap::toBoardPlain(Pixels at) const {
    const auto& h = m_values.h;
    double u = (at.x - m_values.width / 2.0) / m_halfDiagonal;
    double v = (at.y - m_values.height / 2.0) / m_halfDiagonal;
    const double m = 1 + m_values.lens * (u * u + v * v);
    u *= m;
    v *= m;
    const double w = h[6] * u + h[7] * v + 1;
    if (!(w > horizon)) {
        return std::nullopt;
    }
    return Plain{(h[0] * u + h[1] * v + h[2]) / w, (h[3] * u + h[4] * v + h[5]) / w};
}

std::optional<Pixels> PhotoMap::toPhotoPlain(Plain at) const {
    const auto& a = m_inverse;
    const double w = a[6] * at.x + a[7] * at.y + a[8];
    if (!(w > 0)) {
        return std::nullopt;
    }
    double u = (a[0] * at.x + a[1] * at.y + a[2]) / w;
    double v = (a[3] * at.x + a[4] * at.y + a[5]) / w;
    const double ideal = std::hypot(u, v);
    if (m_values.lens != 0 && ideal > 0) {
        const std::optional<double> seen = distorted(ideal, m_values.lens);
        if (!seen) {
            return std::nullopt;
        }
        u *= *seen / ideal;
        v *= *seen / ideal;
    }
    return Pixels{u * m_halfDiagonal + m_values.width / 2.0,
                  v * m_halfDiagonal + m_values.height / 2.0};
}

std::optional<Point> PhotoMap::toBoard(Pixels at) const {
    const std::optional<Plain> plain = toBoardPlain(at);
    // Far outside, nothing is meant; and nanometres must fit.
    if (!plain || std::abs(plain->x) > 1e4 || std::abs(plain->y) > 1e4) {
        return std::nullopt;
    }
    return Point{lengthOf(plain->x, m_values.scale), lengthOf(plain->y, m_values.scale)};
}

std::optional<Pixels> PhotoMap::toPhoto(Point at) const {
    const double scale = static_cast<double>(m_values.scale.inNanometres());
    return toPhotoPlain({static_cast<double>(at.x.inNanometres()) / scale,
                         static_cast<double>(at.y.inNanometres()) / scale});
}

} // namespace stavewright::photo
