#pragma once
// A straightened photograph of one face, in several sizes so that painting it small is quick.

#include <QImage>
#include <QRectF>

#include <vector>

namespace stavewright::ui {

/// Seen from face A as every mark is (one of face B stands mirrored): the upper edge of the image
/// lies at the far edge of the board.
struct FacePhoto {
    QImage image;
    QRectF place;                ///< in the board frame, mm
    std::vector<QImage> smaller; ///< each half as large as the one before

    /// The smallest one that is fine enough for `pixelsPerMm` of the device.
    [[nodiscard]] const QImage& fineEnough(double pixelsPerMm) const {
        const QImage* best = &image;
        for (const QImage& level : smaller) {
            if (level.width() < place.width() * pixelsPerMm) {
                break;
            }
            best = &level;
        }
        return *best;
    }

    /// Fills `smaller`; belongs on a worker thread.
    void makeSmaller() {
        constexpr int smallest = 300; // px
        smaller.clear();
        const QImage* last = &image;
        while (last->width() > smallest && last->height() > 8) {
            smaller.push_back(last->scaled(last->width() / 2, std::max(1, last->height() / 2),
                                           Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
            last = &smaller.back();
        }
    }
};

} // namespace stavewright::ui
