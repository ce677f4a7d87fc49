#include "core/photo/Location.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>
#include <vector>

#include "core/photo/PictureFacts.h"
#include "core/photo/PictureParts.h"

namespace stavewright::photo {

namespace {

using enum ByteOrder;

ByteBuffer jpegWithout(Bytes file, int orientation) {
    const Result<JpegParts> parts = jpegParts(file);
    ByteBuffer result = {0xFF, 0xD8};
    const auto copy = [&](const JpegSegment& segment) {
        append(result, slice(file, segment.from, segment.size));
    };
    // JFIF first, as it must be.
    for (const JpegSegment& segment : parts.value().segments) {
        if (segment.marker == 0xE0 && startsWith(segment.content, "JFIF")) {
            copy(segment);
        }
    }
    if (orientation != 1) {
        const ByteBuffer exif = exifOfOrientation(orientation);
        append(result, std::array<std::uint8_t, 2>{0xFF, 0xE1});
        appendNumber(result, static_cast<std::uint32_t>(exif.size() + 8), 2, BigEndian);
        append(result, std::array<std::uint8_t, 6>{'E', 'x', 'i', 'f', 0, 0});
        append(result, exif);
    }
    for (const JpegSegment& segment : parts.value().segments) {
        const bool application = segment.marker >= 0xE0 && segment.marker <= 0xEF;
        const bool comment = segment.marker == 0xFE;
        const bool profile = segment.marker == 0xE2 && startsWith(segment.content, "ICC_PROFILE");
        const bool colours = segment.marker == 0xEE && startsWith(segment.content, "Adobe");
        if (profile || colours || (!application && !comment)) {
            copy(segment);
        }
    }
    append(result,
           slice(file, parts.value().scansFrom, parts.value().end - parts.value().scansFrom));
    return result;
}

ByteBuffer pngWithout(Bytes file, int orientation) {
    const Result<std::vector<Chunk>> chunks = pngChunks(file);
    ByteBuffer result;
    append(result, slice(file, 0, 8));
    for (const Chunk& chunk : chunks.value()) {
        // Kept: what is needed to show the pixels. Chunks that must be understood have a capital.
        const bool needed = chunk.name[0] >= 'A' && chunk.name[0] <= 'Z';
        bool kept = needed;
        for (const char* name :
             {"tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "cICP", "sBIT", "pHYs", "bKGD"}) {
            kept |= chunk.is(name);
        }
        if (kept) {
            append(result, slice(file, chunk.from, chunk.size));
        }
        if (chunk.is("IHDR") && orientation != 1) {
            ByteBuffer body = {'e', 'X', 'I', 'f'};
            append(body, exifOfOrientation(orientation));
            appendNumber(result, static_cast<std::uint32_t>(body.size() - 4), 4, BigEndian);
            append(result, body);
            appendNumber(result, pngChecksum(body), 4, BigEndian);
        }
    }
    return result;
}

ByteBuffer webpWithout(Bytes file, int orientation) {
    const Result<std::vector<Chunk>> chunks = webpChunks(file);
    ByteBuffer body = {'W', 'E', 'B', 'P'};
    for (const Chunk& chunk : chunks.value()) {
        if (chunk.is("VP8X")) {
            const std::size_t at = body.size();
            append(body, slice(file, chunk.from, chunk.size));
            if (body.size() > at + 8) {
                // Flags: XMP (4) is gone, EXIF (8) stays if there is an orientation to say.
                constexpr unsigned both = 0x0CU;
                const unsigned flags = body[at + 8] & ~both;
                body[at + 8] = static_cast<std::uint8_t>(flags | (orientation != 1 ? 8U : 0U));
            }
        }
        for (const char* name : {"VP8 ", "VP8L", "ALPH", "ICCP", "ANIM", "ANMF"}) {
            if (chunk.is(name)) {
                append(body, slice(file, chunk.from, chunk.size));
            }
        }
    }
    if (orientation != 1) {
        const ByteBuffer exif = exifOfOrientation(orientation);
        append(body, std::array<std::uint8_t, 4>{'E', 'X', 'I', 'F'});
        appendNumber(body, static_cast<std::uint32_t>(exif.size()), 4, LittleEndian);
        append(body, exif);
    }
    ByteBuffer result = {'R', 'I', 'F', 'F'};
    appendNumber(result, static_cast<std::uint32_t>(body.size()), 4, LittleEndian);
    append(result, body);
    return result;
}

/// Stretches of a file; damaged files name the same ones over and over.
class Stretches {
  public:
    void add(std::size_t at, std::size_t size) {
        if (size > 0) {
            m_items.emplace_back(at, at + size);
        }
    }
    /// Each byte below `end` once.
    template <class Visit>
    void forEach(std::size_t end, Visit visit) {
        std::sort(m_items.begin(), m_items.end());
        std::size_t next = 0;
        for (const auto& [from, to] : m_items) {
            for (next = std::max(next, from); next < std::min(to, end); ++next) {
                visit(next);
            }
        }
    }

  private:
    std::vector<std::pair<std::size_t, std::size_t>> m_items;
};

/// A TIFF keeps its places, since everything in it refers to them: what goes is blanked out.
class TiffCleaner {
  public:
    explicit TiffCleaner(Bytes file)
        : m_file(file)
        , m_result(file.begin(), file.end())
        , m_reader(*TiffReader::open(file)) {}

    ByteBuffer clean() {
        // Every directory, and first of all where pixels and what they need are.
        std::vector<Directory> pages;
        std::set<std::size_t> seen;
        for (std::size_t at = m_reader.firstDirectory(); at != 0 && seen.insert(at).second;) {
            const auto page = m_reader.directoryAt(at);
            if (!page) {
                break;
            }
            pages.push_back(*page);
            keep(*page);
            at = page->next;
        }
        for (const Directory& page : pages) {
            forget(page);
        }
        std::vector<bool> stays(m_file.size());
        m_picture.forEach(m_file.size(), [&](std::size_t i) { stays[i] = true; });
        m_blank.forEach(m_file.size(), [&](std::size_t i) {
            if (!stays[i]) {
                m_result[i] = 0;
            }
        });
        for (const Directory& page : pages) {
            shorten(page);
        }
        return std::move(m_result);
    }

  private:
    static bool neededForPixels(std::uint32_t tag) {
        constexpr std::array<std::uint32_t, 33> tags = {
            254, 255, 256, 257, 258, 259, 262, 266, 273, 274, 277, 278, 279, 282, 283, 284, 296,
            301, 317, 318, 319, 320, 322, 323, 324, 325, 338, 339, 347, 529, 530, 531, 532};
        for (const std::uint32_t needed : tags) {
            if (tag == needed) {
                return true;
            }
        }
        return tag == 34675; // the colour profile
    }

    void protect(std::size_t at, std::size_t size) { m_picture.add(at, size); }

    void keep(const Directory& page) {
        protect(0, 8);
        protect(page.at, 2 + 12 * page.entries.size() + 4);
        for (const DirectoryEntry& entry : page.entries) {
            if (neededForPixels(entry.tag)) {
                protect(entry.valueAt, entry.valueSize);
            }
        }
        for (const auto& [offsets, counts] : {std::pair(273U, 279U), std::pair(324U, 325U)}) {
            const DirectoryEntry* at = TiffReader::find(page, offsets);
            const DirectoryEntry* size = TiffReader::find(page, counts);
            for (std::size_t i = 0; at != nullptr && size != nullptr && i < at->count; ++i) {
                const auto from = m_reader.valueOf(*at, i);
                const auto bytes = m_reader.valueOf(*size, i);
                if (!from || !bytes) {
                    break;
                }
                protect(*from, *bytes);
            }
        }
    }

    void blank(std::size_t at, std::size_t size) { m_blank.add(at, size); }

    /// A directory that hangs on another one (EXIF, GPS, a preview), and all that hangs on it.
    void blankDirectory(std::size_t at, int depth) {
        const auto directory =
            depth < 8 && m_blanked.insert(at).second ? m_reader.directoryAt(at) : std::nullopt;
        if (!directory) {
            return;
        }
        for (const DirectoryEntry& entry : directory->entries) {
            blankValue(entry, depth);
        }
        blank(at, 2 + 12 * directory->entries.size() + 4);
    }

    void blankValue(const DirectoryEntry& entry, int depth) {
        // EXIF, GPS, interoperability, previews: 34665, 34853, 40965, 330.
        if (entry.tag == 34665 || entry.tag == 34853 || entry.tag == 40965 || entry.tag == 330) {
            for (std::size_t i = 0; i < entry.count && i < 64; ++i) {
                if (const auto at = m_reader.valueOf(entry, i)) {
                    blankDirectory(*at, depth + 1);
                }
            }
        }
        blank(entry.valueAt, entry.valueSize);
    }

    void forget(const Directory& page) {
        for (const DirectoryEntry& entry : page.entries) {
            if (!neededForPixels(entry.tag)) {
                blankValue(entry, 0);
            }
        }
    }

    /// Takes the entries out that are not needed; the others move up.
    void shorten(const Directory& page) {
        ByteBuffer kept;
        std::uint32_t count = 0;
        for (const DirectoryEntry& entry : page.entries) {
            if (neededForPixels(entry.tag)) {
                append(kept, slice(m_file, entry.at, 12));
                ++count;
            }
        }
        appendNumber(kept, static_cast<std::uint32_t>(page.next), 4, m_reader.order());
        kept.resize(std::min(12 * page.entries.size() + 4, m_file.size() - page.at - 2));
        ByteBuffer head;
        appendNumber(head, count, 2, m_reader.order());
        const auto at = m_result.begin() + static_cast<std::ptrdiff_t>(page.at);
        std::copy(head.begin(), head.end(), at);
        std::copy(kept.begin(), kept.end(), at + 2);
    }

    Bytes m_file;
    ByteBuffer m_result;
    TiffReader m_reader;
    Stretches m_picture; ///< stays, whatever else refers to it
    Stretches m_blank;
    std::set<std::size_t> m_blanked;
};

} // namespace

Result<ByteBuffer> withoutLocation(Bytes file) {
    const Result<PictureFacts> facts = factsOf(file);
    if (!facts) {
        return facts.error();
    }
    const int orientation = facts.value().orientation;
    switch (facts.value().format) {
    case PictureFormat::Jpeg:
        return jpegWithout(file, orientation);
    case PictureFormat::Png:
        return pngWithout(file, orientation);
    case PictureFormat::WebP:
        return webpWithout(file, orientation);
    case PictureFormat::Tiff:
        return TiffCleaner(file).clean();
    case PictureFormat::Heic:
        break;
    }
    return Error{ErrorCode::BadInput,
                 "Where it was taken cannot be removed from a HEIC; save the photograph as a JPEG.",
                 {}};
}

} // namespace stavewright::photo
