#include "core/photo/JointSearch.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stavewright::photo {

namespace {

constexpr int pieces = 32; ///< along the joint; a knot spoils one or two
/// How much more plainly than the other lines around it a joint shows.
constexpr double plainly = 2.5;

/// Mean light of each piece of a row of pixels.
std::array<double, pieces> lightOf(const ImageView& picture, int row) {
    std::array<double, pieces> light{};
    for (int piece = 0; piece < pieces; ++piece) {
        const int from = picture.width * piece / pieces;
        const int to = std::max(from + 1, picture.width * (piece + 1) / pieces);
        std::int64_t sum = 0;
        for (int x = from; x < to; ++x) {
            const std::uint8_t* pixel = picture.at(x, row);
            sum += pixel[0] + pixel[1] + pixel[2];
        }
        light[static_cast<std::size_t>(piece)] =
            static_cast<double>(sum) / (3.0 * static_cast<double>(to - from));
    }
    return light;
}

/// How much a row looks like a joint: the middling piece's step from above to below, or how much
/// darker it is than both.
double plainness(const ImageView& picture, int row) {
    constexpr int apart = 2;
    const auto above = lightOf(picture, row - apart);
    const auto here = lightOf(picture, row);
    const auto below = lightOf(picture, row + apart);
    std::array<double, pieces> looks{};
    for (std::size_t i = 0; i < looks.size(); ++i) {
        looks[i] =
            std::max(std::abs(above[i] - below[i]), 2 * (std::min(above[i], below[i]) - here[i]));
    }
    const auto middle = looks.begin() + pieces / 2;
    std::nth_element(looks.begin(), middle, looks.end());
    return *middle;
}

} // namespace

std::vector<FoundJoint> jointsNear(const ImageView& straightened, const Rect& shown,
                                   const std::vector<Length>& expected, Length reach) {
    std::vector<FoundJoint> found;
    const double perPixel = shown.width().toMillimetres() / std::max(1, straightened.height);
    for (std::size_t i = 0; i < expected.size(); ++i) {
        FoundJoint joint{expected[i], false};
        const Length before = i == 0 ? shown.y0 : expected[i - 1];
        const Length behind = i + 1 == expected.size() ? shown.y1 : expected[i + 1];
        const Length most =
            std::min({reach, (expected[i] - before) / 3, (behind - expected[i]) / 3});
        const double middle = (shown.y1 - expected[i]).toMillimetres() / perPixel;
        const int rows = static_cast<int>(most.toMillimetres() / perPixel);
        std::vector<double> all;
        double best = 0;
        double bestRow = middle;
        for (int away = -rows; away <= rows; ++away) {
            const int row = static_cast<int>(std::lround(middle - 0.5)) + away;
            if (row < 2 || row + 2 >= straightened.height) {
                continue;
            }
            const double value = plainness(straightened, row);
            all.push_back(value);
            const double weighed = value * (1 - 0.3 * std::abs(away) / std::max(1, rows));
            if (weighed > best) {
                best = weighed;
                bestRow = row + 0.5;
            }
        }
        if (all.size() >= 5) {
            const auto ordinary = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
            std::nth_element(all.begin(), ordinary, all.end());
            if (best > plainly * std::max(*ordinary, 1.0)) {
                joint = {shown.y1 - Length::micrometres(std::llround(bestRow * perPixel * 1000)),
                         true};
            }
        }
        found.push_back(joint);
    }
    return found;
}

} // namespace stavewright::photo
