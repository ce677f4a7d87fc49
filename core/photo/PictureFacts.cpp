#include "core/photo/PictureFacts.h"

#include "core/photo/PictureParts.h"

namespace stavewright::photo {

namespace {

using enum ByteOrder;

Error wrong(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), {}}; }

Bytes withoutExifHead(Bytes content) {
    return startsWith(content, std::string_view("Exif\0\0", 6)) ? content.subspan(6) : content;
}

Result<PictureFacts> jpegFacts(Bytes file) {
    const Result<JpegParts> parts = jpegParts(file);
    if (!parts) {
        return parts.error();
    }
    PictureFacts facts;
    bool frame = false;
    for (const JpegSegment& segment : parts.value().segments) {
        const bool startsFrame = segment.marker >= 0xC0 && segment.marker <= 0xCF &&
                                 segment.marker != 0xC4 && segment.marker != 0xC8 &&
                                 segment.marker != 0xCC;
        if (startsFrame && segment.content.size() >= 6) {
            frame = true;
            facts.height = *number(segment.content, 1, 2, BigEndian);
            facts.width = *number(segment.content, 3, 2, BigEndian);
            facts.printingColours = segment.content[5] == 4;
        }
        if (segment.marker == 0xE1 && startsWith(segment.content, "Exif")) {
            facts.orientation = orientationIn(withoutExifHead(segment.content));
        }
    }
    if (!frame) {
        return wrong("The JPEG has no picture in it.");
    }
    return facts;
}

Result<PictureFacts> pngFacts(Bytes file) {
    const Result<std::vector<Chunk>> chunks = pngChunks(file);
    if (!chunks) {
        return chunks.error();
    }
    PictureFacts facts;
    facts.format = PictureFormat::Png;
    bool pixels = false;
    for (const Chunk& chunk : chunks.value()) {
        if (chunk.is("IHDR")) {
            facts.width = number(chunk.content, 0, 4, BigEndian).value_or(0);
            facts.height = number(chunk.content, 4, 4, BigEndian).value_or(0);
        } else if (chunk.is("acTL")) {
            facts.animated = number(chunk.content, 0, 4, BigEndian).value_or(0) > 1;
        } else if (chunk.is("eXIf")) {
            facts.orientation = orientationIn(chunk.content);
        }
        pixels |= chunk.is("IDAT");
    }
    if (!pixels) {
        return wrong("The PNG has no picture in it.");
    }
    return facts;
}

Result<PictureFacts> webpFacts(Bytes file) {
    const Result<std::vector<Chunk>> chunks = webpChunks(file);
    if (!chunks) {
        return chunks.error();
    }
    PictureFacts facts;
    facts.format = PictureFormat::WebP;
    bool pixels = false;
    for (const Chunk& chunk : chunks.value()) {
        const Bytes c = chunk.content;
        if (chunk.is("VP8X")) {
            facts.width = number(c, 4, 3, LittleEndian).value_or(0) + 1;
            facts.height = number(c, 7, 3, LittleEndian).value_or(0) + 1;
        } else if (chunk.is("VP8 ") && facts.width == 0) {
            facts.width = number(c, 6, 2, LittleEndian).value_or(0) & 0x3FFFU;
            facts.height = number(c, 8, 2, LittleEndian).value_or(0) & 0x3FFFU;
        } else if (chunk.is("VP8L") && facts.width == 0) {
            const std::uint32_t bits = number(c, 1, 4, LittleEndian).value_or(0);
            facts.width = (bits & 0x3FFFU) + 1;
            facts.height = ((bits >> 14) & 0x3FFFU) + 1;
        } else if (chunk.is("EXIF")) {
            facts.orientation = orientationIn(withoutExifHead(c));
        }
        facts.animated |= chunk.is("ANIM") || chunk.is("ANMF");
        pixels |= chunk.is("VP8 ") || chunk.is("VP8L") || chunk.is("ANMF");
    }
    if (!pixels) {
        return wrong("The WebP has no picture in it.");
    }
    return facts;
}

Result<PictureFacts> tiffFacts(Bytes file) {
    const std::optional<TiffReader> reader = TiffReader::open(file);
    if (!reader) {
        return wrong(
            "The TIFF is of the kind for files over 4 GB, which is not read; save it as an "
            "ordinary TIFF or a JPEG.");
    }
    const Error cut = wrong("The TIFF is cut off or damaged; copy it from the camera again.");
    const auto directory = reader->directoryAt(reader->firstDirectory());
    if (!directory) {
        return cut;
    }
    PictureFacts facts;
    facts.format = PictureFormat::Tiff;
    const auto value = [&](std::uint32_t tag) -> std::uint32_t {
        const DirectoryEntry* entry = TiffReader::find(*directory, tag);
        return entry == nullptr ? 0 : reader->valueOf(*entry).value_or(0);
    };
    facts.width = value(256);
    facts.height = value(257);
    facts.printingColours = value(262) == 5;
    const std::uint32_t turn = value(274);
    facts.orientation = turn >= 1 && turn <= 8 ? static_cast<int>(turn) : 1;
    // All strips (or tiles) must lie in the file.
    for (const auto& [offsets, counts] : {std::pair(273U, 279U), std::pair(324U, 325U)}) {
        const DirectoryEntry* at = TiffReader::find(*directory, offsets);
        const DirectoryEntry* size = TiffReader::find(*directory, counts);
        if (at == nullptr) {
            continue;
        }
        for (std::size_t i = 0; i < at->count; ++i) {
            const auto from = reader->valueOf(*at, i);
            const auto bytes = size == nullptr ? std::optional(0U) : reader->valueOf(*size, i);
            if (!from || !bytes || *from > file.size() || *bytes > file.size() - *from) {
                return cut;
            }
        }
    }
    return facts;
}

bool isHeic(Bytes file) {
    if (!startsWith(slice(file, 4, 4), "ftyp")) {
        return false;
    }
    for (const char* brand : {"heic", "heix", "hevc", "heim", "heis", "mif1", "msf1", "avif"}) {
        if (startsWith(slice(file, 8, 4), brand)) {
            return true;
        }
    }
    return false;
}

} // namespace

std::string nameOf(PictureFormat format) {
    switch (format) {
    case PictureFormat::Jpeg:
        return "JPEG";
    case PictureFormat::Png:
        return "PNG";
    case PictureFormat::Tiff:
        return "TIFF";
    case PictureFormat::WebP:
        return "WebP";
    case PictureFormat::Heic:
        return "HEIC";
    }
    return {};
}

Result<PictureFacts> factsOf(Bytes file) {
    if (file.empty()) {
        return wrong("The file is empty.");
    }
    if (startsWith(file, "\xFF\xD8")) {
        return jpegFacts(file);
    }
    if (startsWith(file, "\x89PNG\r\n\x1A\n")) {
        return pngFacts(file);
    }
    if (startsWith(file, "RIFF") && startsWith(slice(file, 8, 4), "WEBP")) {
        return webpFacts(file);
    }
    if (startsWith(file, std::string_view("II*\0", 4)) ||
        startsWith(file, std::string_view("MM\0*", 4)) ||
        startsWith(file, std::string_view("II+\0", 4)) ||
        startsWith(file, std::string_view("MM\0+", 4))) {
        return tiffFacts(file);
    }
    if (isHeic(file)) {
        PictureFacts facts;
        facts.format = PictureFormat::Heic;
        return facts;
    }
    if (startsWith(file, "GIF8")) {
        return wrong("The file is a GIF; a photograph must be a JPEG, PNG, TIFF or WebP.");
    }
    return wrong("The file is no photograph; it must be a JPEG, PNG, TIFF or WebP.");
}

Status usableSize(const PictureFacts& facts) {
    const std::string name = nameOf(facts.format);
    if (facts.width == 0 || facts.height == 0) {
        return wrong("The " + name + " has no pixels.");
    }
    if (std::uint64_t{facts.width} * facts.height > mostPixels) {
        return wrong("The " + name + " has " + std::to_string(facts.width) + " x " +
                     std::to_string(facts.height) + " pixels; at most " +
                     std::to_string(mostPixels / 1'000'000) +
                     " million in all can be used, so save it smaller.");
    }
    return Done{};
}

Status usable(const PictureFacts& facts) {
    const std::string name = nameOf(facts.format);
    if (facts.animated) {
        return wrong("The " + name + " is animated; a photograph must be a single picture.");
    }
    if (facts.printingColours) {
        return wrong("The " + name +
                     " has printing colours (CMYK); save it with screen colours (RGB).");
    }
    // A HEIC shows its size only when it is opened.
    return facts.format == PictureFormat::Heic ? Status(Done{}) : usableSize(facts);
}

} // namespace stavewright::photo
