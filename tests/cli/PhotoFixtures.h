#pragma once
// Picture files written by Qt, and what may be wrong with such files.

#include <QBuffer>
#include <QByteArray>
#include <QImage>

#include "core/photo/Image.h"
#include "core/photo/PictureParts.h"

namespace stavewright::testing {

inline QImage imageOf(const photo::Image& image) {
    QImage result(image.width(), image.height(), QImage::Format_RGB888);
    for (int y = 0; y < image.height(); ++y) {
        std::copy_n(image.view().at(0, y), image.stride(), result.scanLine(y));
    }
    return result;
}

inline QByteArray encoded(const QImage& image, const char* format, int quality = 95) {
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, format, quality);
    return buffer.data();
}

/// EXIF data with an orientation and a place, as a camera writes them behind the start of a JPEG.
inline QByteArray withExif(QByteArray jpeg, int orientation) {
    const photo::ByteBuffer exif = photo::exifOfOrientation(orientation);
    QByteArray segment("\xFF\xE1", 2);
    const auto length = static_cast<unsigned>(exif.size() + 8);
    segment.append(static_cast<char>(length >> 8)).append(static_cast<char>(length & 0xFFU));
    segment.append("Exif\0\0", 6);
    segment.append(reinterpret_cast<const char*>(exif.data()), static_cast<qsizetype>(exif.size()));
    return jpeg.insert(2, segment);
}

} // namespace stavewright::testing
