#pragma once
// A photograph in several sizes, so that it is painted quickly at every zoom.

#include <QImage>

#include <algorithm>
#include <vector>

namespace stavewright::ui {

/// Each half as large as the one before; empty for a null picture. Takes up to tenths of a second:
/// for worker threads.
[[nodiscard]] inline std::vector<QImage> photoLevels(const QImage& picture) {
    constexpr int smallest = 600; // px
    std::vector<QImage> levels;
    if (!picture.isNull()) {
        levels.push_back(picture.convertToFormat(QImage::Format_RGB32));
        while (levels.back().width() > smallest) {
            const QImage& last = levels.back();
            levels.push_back(last.scaled(std::max(1, last.width() / 2),
                                         std::max(1, last.height() / 2), Qt::IgnoreAspectRatio,
                                         Qt::SmoothTransformation));
        }
    }
    return levels;
}

} // namespace stavewright::ui
