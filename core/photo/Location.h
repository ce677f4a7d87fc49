#pragma once
// A photograph says where it was taken. Before one goes into a job, everything is taken out of the
// file but the picture itself, its colour profile and which way up it is.

#include "core/base/Result.h"
#include "core/photo/PictureBytes.h"

namespace stavewright::photo {

/// The same picture file, pixel data byte for byte the same, without any place, text, preview,
/// maker's note or whatever hangs on behind the picture. JPEG, PNG, TIFF and WebP; the orientation
/// is kept. Fails with the sentences of PictureFacts.h.
[[nodiscard]] Result<ByteBuffer> withoutLocation(Bytes file);

} // namespace stavewright::photo
