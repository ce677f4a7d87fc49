#pragma once
// Photograph files, decoded by Qt after the core has looked at their bytes.

#include <QByteArray>
#include <QImage>
#include <QString>

#include "core/base/Result.h"
#include "core/photo/Image.h"

namespace stavewright::ui {

/// The bytes of a photograph file; a sentence when it cannot be read or is too large.
[[nodiscard]] Result<QByteArray> readPhotoFile(const QString& path);

/// The upright picture (EXIF turn honoured). `place` goes into the error, usually the file's name.
[[nodiscard]] Result<QImage> decodePhoto(const QByteArray& file, const QString& place);

/// The same with about `mostPixels` at most where the format can be decoded smaller (JPEG), which
/// is much faster; the shape is kept to the pixel.
[[nodiscard]] Result<QImage> decodePhotoSmall(const QByteArray& file, const QString& place,
                                              double mostPixels);

/// The pixels for the core.
[[nodiscard]] photo::Image pixelsOf(const QImage& picture);

} // namespace stavewright::ui
