#pragma once
// The straightened picture: what a photograph shows of a rectangle of the board, square on, x to
// the right, the far edge at the top.

#include "core/photo/Image.h"
#include "core/photo/PhotoMap.h"

namespace stavewright::photo {

/// `width` x `height` pixels of `shown`; black where the photograph does not reach. Finer detail
/// than the result can hold is averaged first, so that grain does not turn into moire.
[[nodiscard]] Image resampled(const ImageView& photo, const PhotoMap& map, const Rect& shown,
                              int width, int height);

/// The whole picture at another size, averaged or interpolated.
[[nodiscard]] Image scaled(const ImageView& picture, int width, int height);

/// Pixels along the grain that keep about all the detail a photograph has of `shown`, at most
/// `most` pixels in all; the height follows from the shape of `shown`.
struct PictureSize {
    int width = 0;
    int height = 0;
};
[[nodiscard]] PictureSize naturalSize(const PhotoMap& map, const Rect& shown, double most);

} // namespace stavewright::photo
