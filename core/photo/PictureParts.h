#pragma once
// The parts of which picture files are made, in the order of the file. Only of this folder.

#include <array>
#include <vector>

#include "core/base/Result.h"
#include "core/photo/PictureBytes.h"

namespace stavewright::photo {

/// One marker of a JPEG up to its scans.
struct JpegSegment {
    std::uint8_t marker = 0; ///< 0xE1 for APP1
    std::size_t from = 0;    ///< of 0xFF
    std::size_t size = 0;    ///< with marker and length
    Bytes content;           ///< without marker and length
};
struct JpegParts {
    std::vector<JpegSegment> segments; ///< between the start and the first scan
    std::size_t scansFrom = 0;         ///< where the first scan's marker stands
    std::size_t end = 0;               ///< behind the end marker of this picture
};
[[nodiscard]] Result<JpegParts> jpegParts(Bytes file);

struct Chunk {
    std::array<char, 4> name{};
    std::size_t from = 0; ///< where the chunk begins, header and all
    std::size_t size = 0; ///< of the chunk in the file, header, checksum and padding too
    Bytes content;
    [[nodiscard]] bool is(const char* text) const {
        return name[0] == text[0] && name[1] == text[1] && name[2] == text[2] && name[3] == text[3];
    }
};
/// Of a chunk's name and content.
[[nodiscard]] std::uint32_t pngChecksum(Bytes bytes);
/// Up to IEND; every checksum is right.
[[nodiscard]] Result<std::vector<Chunk>> pngChunks(Bytes file);
/// Of the RIFF.
[[nodiscard]] Result<std::vector<Chunk>> webpChunks(Bytes file);

/// An entry of a directory of a TIFF or of EXIF data.
struct DirectoryEntry {
    std::uint32_t tag = 0;
    std::uint32_t type = 0;
    std::uint32_t count = 0;
    std::size_t at = 0;        ///< of the entry's twelve bytes
    std::size_t valueAt = 0;   ///< of its value, inside or outside the entry
    std::size_t valueSize = 0; ///< bytes; cut short at the end of the file
    bool cutOff = false;
};
struct Directory {
    std::size_t at = 0;
    std::vector<DirectoryEntry> entries;
    std::size_t next = 0; ///< of the next directory, 0: none
};
class TiffReader {
  public:
    /// Nothing for what is no (classic) TIFF.
    [[nodiscard]] static std::optional<TiffReader> open(Bytes data);

    [[nodiscard]] ByteOrder order() const { return m_order; }
    [[nodiscard]] std::size_t firstDirectory() const { return m_first; }
    [[nodiscard]] std::optional<Directory> directoryAt(std::size_t at) const;
    /// The i-th whole number of an entry.
    [[nodiscard]] std::optional<std::uint32_t> valueOf(const DirectoryEntry& entry,
                                                       std::size_t i = 0) const;
    [[nodiscard]] static const DirectoryEntry* find(const Directory& directory, std::uint32_t tag);

  private:
    Bytes m_data;
    ByteOrder m_order = ByteOrder::LittleEndian;
    std::size_t m_first = 0;
};

/// 1 to 8; 1 where nothing sensible is said. `exif` starts with "II" or "MM".
[[nodiscard]] int orientationIn(Bytes exif);
/// EXIF data that say the orientation and nothing else.
[[nodiscard]] ByteBuffer exifOfOrientation(int orientation);

} // namespace stavewright::photo
