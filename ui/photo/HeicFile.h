#pragma once
// HEIC, the format of many phones, which Qt does not read: decoded by libheif.

#include <QByteArray>
#include <QImage>

#include "core/base/Result.h"

namespace stavewright::ui {

/// The picture the file shows first, upright. Fails with a sentence.
[[nodiscard]] Result<QImage> decodeHeic(const QByteArray& file);

} // namespace stavewright::ui
