#include "core/photo/EdgeLines.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace stavewright::photo {

namespace {

constexpr double pitch = 0.8;      ///< mm of wood for a sample: growth rings are wider
constexpr int mostSamples = 4'000; ///< along a strip

/// Light of the picture at a place between pixels; below zero where nothing is shown.
float lightAt(const ImageView& picture, double x, double y) {
    const int left = static_cast<int>(std::floor(x - 0.5));
    const int top = static_cast<int>(std::floor(y - 0.5));
    if (left < 0 || top < 0 || left + 1 >= picture.width || top + 1 >= picture.height) {
        return -1;
    }
    const auto light = [&](int dx, int dy) {
        const std::uint8_t* pixel = picture.at(left + dx, top + dy);
        const int sum = pixel[0] + pixel[1] + pixel[2];
        return sum == 0 ? -1.0F : static_cast<float>(sum) / 3;
    };
    const float a = light(0, 0);
    const float b = light(1, 0);
    const float c = light(0, 1);
    const float d = light(1, 1);
    if (a < 0 || b < 0 || c < 0 || d < 0) {
        return -1;
    }
    const auto across = static_cast<float>(x - 0.5 - left);
    const auto down = static_cast<float>(y - 0.5 - top);
    return (a * (1 - across) + b * across) * (1 - down) + (c * (1 - across) + d * across) * down;
}

/// Rows run from y0 to y1 of the strip, columns along it.
struct Samples {
    cv::Mat light;
    cv::Mat isShown; ///< 255 or 0
    int shown = 0;
    double finest = 1; ///< samples for a pixel of the picture
};

Samples sampled(const ImageView& picture, const Rect& shown, const Rect& strip,
                const std::function<Point(Point)>& toPicture) {
    const int wide =
        std::clamp(static_cast<int>(strip.length().toMillimetres() / pitch), 8, mostSamples);
    const int high = std::clamp(static_cast<int>(strip.width().toMillimetres() / pitch), 8, 400);
    Samples samples;
    samples.light = cv::Mat(high, wide, CV_32F, cv::Scalar(0));
    samples.isShown = cv::Mat(high, wide, CV_8U, cv::Scalar(0));
    // The way is straight: three of its corners tell all places.
    const auto inPixels = [&](Point at) {
        const Point there = toPicture(at);
        return cv::Point2d(
            (there.x - shown.x0).toMillimetres() / shown.length().toMillimetres() * picture.width,
            (shown.y1 - there.y).toMillimetres() / shown.width().toMillimetres() * picture.height);
    };
    const cv::Point2d corner = inPixels({strip.x0, strip.y0});
    const cv::Point2d along = (inPixels({strip.x1, strip.y0}) - corner) / wide;
    const cv::Point2d across = (inPixels({strip.x0, strip.y1}) - corner) / high;
    samples.finest = 1 / std::max(1e-3, std::hypot(along.x, along.y));
    for (int row = 0; row < high; ++row) {
        for (int column = 0; column < wide; ++column) {
            const cv::Point2d at = corner + along * (column + 0.5) + across * (row + 0.5);
            const float light = lightAt(picture, at.x, at.y);
            if (light >= 0) {
                samples.light.at<float>(row, column) = light;
                samples.isShown.at<std::uint8_t>(row, column) = 255;
                ++samples.shown;
            }
        }
    }
    return samples;
}

/// Strong lines (a knot's rim, a scratch) count no more than this many times the middling ones.
constexpr float mostOverMiddle = 3;

} // namespace

std::optional<LineDirection> linesIn(const ImageView& straightened, const Rect& shown,
                                     const Rect& strip,
                                     const std::function<Point(Point)>& toPicture) {
    if (straightened.isEmpty() || shown.isEmpty() || strip.isEmpty()) {
        return std::nullopt;
    }
    Samples samples = sampled(straightened, shown, strip, toPicture);
    if (2 * samples.shown < samples.light.rows * samples.light.cols) {
        return std::nullopt;
    }
    const double sigma = std::clamp(samples.finest, 1.0, 4.0);
    cv::Mat smooth;
    cv::GaussianBlur(samples.light, smooth, {}, sigma, sigma, cv::BORDER_REPLICATE);
    cv::Mat dx;
    cv::Mat dy;
    cv::Scharr(smooth, dx, CV_32F, 1, 0);
    cv::Scharr(smooth, dy, CV_32F, 0, 1);
    cv::Mat inside;
    const int margin = 2 * static_cast<int>(std::ceil(sigma)) + 1;
    cv::erode(samples.isShown, inside, cv::Mat::ones(margin, margin, CV_8U));
    std::vector<float> strengths;
    for (int row = 1; row + 1 < dx.rows; ++row) {
        for (int column = 1; column + 1 < dx.cols; ++column) {
            if (inside.at<std::uint8_t>(row, column) != 0) {
                strengths.push_back(
                    std::hypot(dx.at<float>(row, column), dy.at<float>(row, column)));
            }
        }
    }
    if (strengths.empty()) {
        return std::nullopt;
    }
    const auto middle = strengths.begin() + static_cast<std::ptrdiff_t>(strengths.size() / 2);
    std::nth_element(strengths.begin(), middle, strengths.end());
    const float most = std::max(*middle * mostOverMiddle, 1e-3F);
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int row = 1; row + 1 < dx.rows; ++row) {
        for (int column = 1; column + 1 < dx.cols; ++column) {
            if (inside.at<std::uint8_t>(row, column) == 0) {
                continue;
            }
            float gx = dx.at<float>(row, column);
            float gy = dy.at<float>(row, column);
            const float strength = std::hypot(gx, gy);
            if (strength > most) {
                gx *= most / strength;
                gy *= most / strength;
            }
            xx += static_cast<double>(gx) * static_cast<double>(gx);
            xy += static_cast<double>(gx) * static_cast<double>(gy);
            yy += static_cast<double>(gy) * static_cast<double>(gy);
        }
    }
    const double spread = std::hypot(xx - yy, 2 * xy);
    LineDirection lines;
    lines.surePercent = static_cast<std::int32_t>(std::lround(100 * spread / (xx + yy + 1e-9)));
    // Light changes most across the lines.
    const double across = 0.5 * std::atan2(2 * xy, xx - yy) * 1800 / std::numbers::pi;
    const auto tenths = static_cast<std::int32_t>(std::lround(across)) - 900;
    lines.angleTenths = tenths <= -900 ? tenths + 1800 : tenths;
    return lines;
}

} // namespace stavewright::photo
