#include "tests/boards/MadePhoto.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "core/geometry/PolygonOps.h"
#include "tests/boards/Noise.h"

namespace stavewright::boards {

namespace {

Camera cameraFor(const Rect& box, const PhotoWish& wish, bool mirrored, Chance& chance) {
    Camera camera;
    camera.width = wish.width;
    camera.height = wish.height;
    camera.focal = 0.6 * std::hypot(wish.width, wish.height) * chance.between(0.95, 1.05);
    camera.barrel = wish.barrel;
    camera.mirrored = mirrored;
    camera.x = box.x1.toInches() / 2 + wish.askew * chance.between(-0.02, 0.02) * box.x1.toInches();
    camera.y = (box.y0 + box.y1).toInches() / 2 + wish.askew * chance.between(-1, 1);
    camera.tilt = wish.askew * chance.between(-0.12, 0.12);
    camera.lean = wish.askew * chance.between(-0.45, 0.25);
    camera.roll = wish.askew * chance.between(-0.05, 0.05);
    camera.distance = 10;
    // Back off until all of it is in the picture with some room.
    for (int step = 0; step < 400; ++step) {
        bool all = true;
        for (const double x : {0.0, box.x1.toInches()}) {
            for (const double y : {box.y0.toInches(), box.y1.toInches()}) {
                const photo::Pixels at = camera.shows(x, y);
                const double room = 0.03 * wish.width;
                all &= at.x > room && at.y > room && at.x < wish.width - room &&
                       at.y < wish.height - room;
            }
        }
        if (all) {
            break;
        }
        camera.distance *= 1.02;
    }
    return camera;
}

/// Of the face's picture, between its pixels.
std::array<double, 3> sample(const photo::ImageView& face, double x, double y) {
    const double fx = std::clamp(x - 0.5, 0.0, face.width - 1.001);
    const double fy = std::clamp(y - 0.5, 0.0, face.height - 1.001);
    const int ix = static_cast<int>(fx);
    const int iy = static_cast<int>(fy);
    const double u = fx - ix;
    const double v = fy - iy;
    const int jx = std::min(ix + 1, face.width - 1);
    const int jy = std::min(iy + 1, face.height - 1);
    std::array<double, 3> colour{};
    for (std::size_t c = 0; c < 3; ++c) {
        colour[c] = (face.at(ix, iy)[c] * (1 - u) + face.at(jx, iy)[c] * u) * (1 - v) +
                    (face.at(ix, jy)[c] * (1 - u) + face.at(jx, jy)[c] * u) * v;
    }
    return colour;
}

struct Floor {
    std::uint32_t seed;
    std::array<double, 3> colour;
    explicit Floor(Chance& chance)
        : seed(chance.bits()) {
        constexpr std::array<std::array<double, 3>, 5> kinds = {
            {{18, 18, 20}, {92, 94, 98}, {74, 58, 44}, {128, 130, 134}, {40, 46, 52}}};
        colour = kinds[static_cast<std::size_t>(chance.whole(0, 4))];
    }
    [[nodiscard]] std::array<double, 3> at(double x, double y) const {
        const double rough =
            1 + 0.18 * roughNoise(seed, x / 3, y / 3) + 0.06 * noise(seed + 5, x * 6, y * 6);
        return {colour[0] * rough, colour[1] * rough, colour[2] * rough};
    }
};

} // namespace

MadePhoto photographOf(const MadeBoard& board, BoardFace side, std::uint64_t seed,
                       const PhotoWish& wish) {
    Chance chance(seed ^ 0xABCDEFU);
    static_cast<void>(chance.bits());
    const Rect box = boundingBox(board.board.outline);
    MadePhoto made;
    made.camera = cameraFor(box, wish, side == BoardFace::B, chance);
    made.size = {box.x1, box.width(), box.width()};
    made.controls = {wish.width, wish.height, {}, {}, {}, {}};
    const double length = box.x1.toInches();
    const double y0 = box.y0.toInches();
    const double y1 = box.y1.toInches();
    using photo::Corner;
    for (const auto& [corner, x, y] :
         {std::tuple(Corner::DatumNear, 0.0, y0), std::tuple(Corner::DatumFar, 0.0, y1),
          std::tuple(Corner::EndNear, length, y0), std::tuple(Corner::EndFar, length, y1)}) {
        made.controls.corners.push_back({corner, photo::PhotoPoint::at(made.camera.shows(x, y))});
    }

    const photo::Pixels left = made.camera.shows(0, (y0 + y1) / 2);
    const photo::Pixels right = made.camera.shows(length, (y0 + y1) / 2);
    const double perInch =
        std::clamp(1.1 * std::hypot(right.x - left.x, right.y - left.y) / length, 8.0, 160.0);
    const photo::Image face = facePicture(board, side, perInch);
    const Floor floor(chance);
    const double lightWay = chance.between(0, 6.28);
    const double shadowAt = chance.between(0.2, 0.8) * length;
    const double shadowSlope = chance.between(-0.8, 0.8);
    const double shadowDepth = chance.between(0.45, 0.7);
    const std::array<double, 3> tint = {chance.between(0.94, 1.06), 1, chance.between(0.88, 1.1)};
    const double exposure = chance.between(0.75, 1.05);
    const std::uint32_t grain = chance.bits();

    made.image = photo::Image(wish.width, wish.height);
    for (int row = 0; row < wish.height; ++row) {
        for (int column = 0; column < wish.width; ++column) {
            const Camera::Place at = made.camera.sees({column + 0.5, row + 0.5});
            const double px = at.x * perInch;
            const double py = (side == BoardFace::A ? y1 - at.y : at.y - y0) * perInch;
            std::array<double, 3> colour = floor.at(at.x, at.y);
            bool onBoard = false;
            if (px >= 0 && py >= 0 && px < face.width() && py < face.height()) {
                const auto* nearest = face.view().at(static_cast<int>(px), static_cast<int>(py));
                onBoard = nearest[0] + nearest[1] + nearest[2] > 0;
                if (onBoard) {
                    colour = sample(face.view(), px, py);
                }
            }
            if (!onBoard) {
                // The board's own shadow lies beside it.
                const double beside = std::hypot(std::max({0.0, y0 - at.y, at.y - y1}),
                                                 std::max({0.0, -at.x, at.x - length}));
                for (double& part : colour) {
                    part *= 1 - 0.4 * std::exp(-beside);
                }
            }
            const double u = static_cast<double>(column) / wish.width - 0.5;
            const double v = static_cast<double>(row) / wish.height - 0.5;
            double light = exposure * (1 + wish.uneven * 1.4 *
                                               (u * std::cos(lightWay) + v * std::sin(lightWay)));
            light *= 1 - 0.25 * (u * u + v * v);
            if (wish.shadow) {
                const double into = at.x - shadowAt - shadowSlope * (at.y - y0);
                light *= 1 - (1 - shadowDepth) / (1 + std::exp(-into / 0.6));
            }
            std::uint8_t* pixel = made.image.at(column, row);
            for (std::size_t c = 0; c < 3; ++c) {
                const double speck = wish.noise * 0.7 *
                                     (grit(grain + static_cast<std::uint32_t>(c), column, row) +
                                      grit(grain + 9 + static_cast<std::uint32_t>(c), column, row));
                pixel[c] = static_cast<std::uint8_t>(
                    std::clamp(colour[c] * light * tint[c] + speck + 0.5, 0.0, 255.0));
            }
        }
    }
    return made;
}

} // namespace stavewright::boards
