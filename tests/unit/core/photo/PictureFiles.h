#pragma once
// Picture files built byte by byte, with everything in them that must not leave the shop: a place
// in EXIF, in XMP and in text. Their pixel data are a known stretch of bytes; no decoder is needed.

#include <string>

#include "core/photo/PictureBytes.h"

namespace stavewright::photo::testing {

/// Found in every hidden place.
inline const std::string secret = "N47.3769E8.5417";
/// Stands where the pixels are.
[[nodiscard]] ByteBuffer pixelBytes();

struct FileWish {
    int orientation = 6;
    bool printingColours = false;
    bool animated = false;
    std::uint32_t width = 40;
    std::uint32_t height = 30;
};

[[nodiscard]] ByteBuffer jpegFile(const FileWish& wish = {});
[[nodiscard]] ByteBuffer pngFile(const FileWish& wish = {});
[[nodiscard]] ByteBuffer webpFile(const FileWish& wish = {});
[[nodiscard]] ByteBuffer tiffFile(const FileWish& wish = {},
                                  ByteOrder order = ByteOrder::LittleEndian);

[[nodiscard]] bool contains(const ByteBuffer& file, Bytes what);
[[nodiscard]] bool contains(const ByteBuffer& file, const std::string& what);

} // namespace stavewright::photo::testing
