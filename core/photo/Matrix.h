#pragma once
// Pictures as OpenCV sees them, without copying. Included by sources of this folder only.

#include "core/photo/Image.h"

#include <opencv2/core.hpp>

namespace stavewright::photo {

/// Borrows; read only, whatever OpenCV's type says.
[[nodiscard]] inline cv::Mat matrixOf(const ImageView& view) {
    return {view.height, view.width, CV_8UC3, const_cast<std::uint8_t*>(view.data),
            static_cast<std::size_t>(view.stride)};
}
[[nodiscard]] inline cv::Mat matrixOf(Image& image) {
    return {image.height(), image.width(), CV_8UC3, image.data(),
            static_cast<std::size_t>(image.stride())};
}

} // namespace stavewright::photo
