#include "core/photo/Resample.h"

#include <algorithm>
#include <cmath>

#include "core/photo/Matrix.h"

#include <opencv2/imgproc.hpp>

namespace stavewright::photo {

namespace {

/// Where the pixels of a straightened picture lie in the board frame, in units of the map's scale.
struct Grid {
    double x0 = 0;
    double perColumn = 0;
    double y1 = 0;
    double perRow = 0;

    Grid(const PhotoMap& map, const Rect& shown, int width, int height) {
        const double scale = static_cast<double>(map.values().scale.inNanometres());
        const auto inScale = [&](Length l) {
            return static_cast<double>(l.inNanometres()) / scale;
        };
        x0 = inScale(shown.x0);
        perColumn = inScale(shown.length()) / width;
        y1 = inScale(shown.y1);
        perRow = inScale(shown.width()) / height;
    }
    [[nodiscard]] PhotoMap::Plain at(double column, double row) const {
        return {x0 + column * perColumn, y1 - row * perRow};
    }
};

/// The most pixels of the photograph that one pixel of the picture covers, looked at in a few
/// places.
double reduction(const PhotoMap& map, const Grid& grid, int width, int height) {
    double most = 0;
    for (const double fx : {0.05, 0.5, 0.95}) {
        for (const double fy : {0.05, 0.5, 0.95}) {
            const double c = fx * width;
            const double r = fy * height;
            const auto here = map.toPhotoPlain(grid.at(c, r));
            const auto right = map.toPhotoPlain(grid.at(c + 1, r));
            const auto below = map.toPhotoPlain(grid.at(c, r + 1));
            if (here && right && below) {
                const double along = std::hypot(right->x - here->x, right->y - here->y);
                const double across = std::hypot(below->x - here->x, below->y - here->y);
                most = std::max(most, std::min(along, across));
            }
        }
    }
    return most;
}

} // namespace

Image resampled(const ImageView& photo, const PhotoMap& map, const Rect& shown, int width,
                int height) {
    Image result(std::max(width, 0), std::max(height, 0));
    if (photo.isEmpty() || width <= 0 || height <= 0 || shown.isEmpty()) {
        return result;
    }
    const Grid grid(map, shown, width, height);
    cv::Mat source = matrixOf(photo);
    double shrunk = 1;
    for (double step = reduction(map, grid, width, height); step >= 2; step /= 2) {
        cv::Mat half;
        cv::resize(source, half,
                   {std::max(1, (source.cols + 1) / 2), std::max(1, (source.rows + 1) / 2)}, 0, 0,
                   cv::INTER_AREA);
        source = half;
        shrunk *= 2;
    }
    const double perX = static_cast<double>(source.cols) / photo.width;
    const double perY = static_cast<double>(source.rows) / photo.height;
    cv::Mat out = matrixOf(result);
    // In bands of rows, so that the tables of places stay small.
    constexpr int band = 64;
    for (int top = 0; top < height; top += band) {
        const int rows = std::min(band, height - top);
        cv::Mat placesX(rows, width, CV_32F);
        cv::Mat placesY(rows, width, CV_32F);
        for (int r = 0; r < rows; ++r) {
            auto* x = placesX.ptr<float>(r);
            auto* y = placesY.ptr<float>(r);
            for (int c = 0; c < width; ++c) {
                const auto seen = map.toPhotoPlain(grid.at(c + 0.5, top + r + 0.5));
                x[c] = seen ? static_cast<float>(seen->x * perX - 0.5) : -10.F;
                y[c] = seen ? static_cast<float>(seen->y * perY - 0.5) : -10.F;
            }
        }
        cv::remap(source, out.rowRange(top, top + rows), placesX, placesY, cv::INTER_LINEAR,
                  cv::BORDER_CONSTANT);
    }
    return result;
}

Image scaled(const ImageView& picture, int width, int height) {
    Image result(std::max(width, 0), std::max(height, 0));
    if (!picture.isEmpty() && width > 0 && height > 0) {
        cv::Mat out = matrixOf(result);
        cv::resize(matrixOf(picture), out, {width, height}, 0, 0,
                   width < picture.width ? cv::INTER_AREA : cv::INTER_LINEAR);
    }
    return result;
}

PictureSize naturalSize(const PhotoMap& map, const Rect& shown, double most) {
    // Measured along the middle and along both edges.
    double pixels = 1;
    const double aspect = shown.length().toMillimetres() / shown.width().toMillimetres();
    constexpr int steps = 8;
    for (const Length y : {shown.y0, (shown.y0 + shown.y1) / 2, shown.y1}) {
        double along = 0;
        for (int i = 0; i < steps; ++i) {
            const auto a = map.toPhoto({shown.x0 + shown.length() * i / steps, y});
            const auto b = map.toPhoto({shown.x0 + shown.length() * (i + 1) / steps, y});
            along += a && b ? std::hypot(b->x - a->x, b->y - a->y) : 0;
        }
        pixels = std::max(pixels, along);
    }
    pixels = std::min(pixels, std::sqrt(most * aspect));
    return {std::max(1, static_cast<int>(std::lround(pixels))),
            std::max(1, static_cast<int>(std::lround(pixels / aspect)))};
}

} // namespace stavewright::photo
