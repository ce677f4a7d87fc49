#pragma once
// What a picture file says about itself, read from its bytes without decoding any pixel.

#include <string>

#include "core/base/Result.h"
#include "core/photo/PictureBytes.h"

namespace stavewright::photo {

enum class PictureFormat { Jpeg, Png, Tiff, WebP, Heic };
[[nodiscard]] std::string nameOf(PictureFormat format);

struct PictureFacts {
    PictureFormat format = PictureFormat::Jpeg;
    /// As stored, before the turn; 0 where the format hides it (HEIC).
    std::uint32_t width = 0;
    std::uint32_t height = 0;
    /// EXIF orientation 1 to 8; 1 where nothing (sensible) is said.
    int orientation = 1;
    bool printingColours = false; ///< CMYK
    bool animated = false;
};

/// The most pixels that are taken: twice a fifty-megapixel photograph.
inline constexpr std::uint64_t mostPixels = 110'000'000;
/// The most bytes of a file.
inline constexpr std::uint64_t mostBytes = 512U << 20;

/// Fails with a sentence for what is no such picture or is cut off.
[[nodiscard]] Result<PictureFacts> factsOf(Bytes file);

/// Whether it has pixels, and not too many.
[[nodiscard]] Status usableSize(const PictureFacts& facts);
/// Nothing when the picture can be used as a photograph of a board; otherwise why not.
[[nodiscard]] Status usable(const PictureFacts& facts);

} // namespace stavewright::photo
