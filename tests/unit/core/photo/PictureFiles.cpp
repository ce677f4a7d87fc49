#include "tests/unit/core/photo/PictureFiles.h"

#include <algorithm>
#include <array>

#include "core/photo/PictureParts.h"

namespace stavewright::photo::testing {

namespace {

using enum ByteOrder;

void text(ByteBuffer& to, const std::string& s) { to.insert(to.end(), s.begin(), s.end()); }

struct Entry {
    std::uint32_t tag;
    std::uint32_t type;
    std::uint32_t count;
    std::uint32_t value;
};

void directory(ByteBuffer& to, const std::vector<Entry>& entries, ByteOrder order) {
    appendNumber(to, static_cast<std::uint32_t>(entries.size()), 2, order);
    for (const Entry& e : entries) {
        appendNumber(to, e.tag, 2, order);
        appendNumber(to, e.type, 2, order);
        appendNumber(to, e.count, 4, order);
        if (e.type == 3 && e.count == 1) {
            appendNumber(to, e.value, 2, order);
            appendNumber(to, 0, 2, order);
        } else {
            appendNumber(to, e.value, 4, order);
        }
    }
    appendNumber(to, 0, 4, order);
}

/// Orientation, and a GPS directory whose one entry is the secret.
ByteBuffer exif(const FileWish& wish) {
    constexpr ByteOrder order = BigEndian;
    ByteBuffer data = {'M', 'M', 0, 42, 0, 0, 0, 8};
    const std::uint32_t gps = 8 + 2 + 24 + 4;
    directory(data,
              {{0x0112, 3, 1, static_cast<std::uint32_t>(wish.orientation)}, {0x8825, 4, 1, gps}},
              order);
    directory(data, {{2, 2, static_cast<std::uint32_t>(secret.size()), gps + 2 + 12 + 4}}, order);
    text(data, secret);
    return data;
}

void segment(ByteBuffer& to, std::uint8_t marker, const ByteBuffer& content) {
    append(to, std::array<std::uint8_t, 2>{0xFF, marker});
    appendNumber(to, static_cast<std::uint32_t>(content.size() + 2), 2, BigEndian);
    append(to, content);
}

void chunk(ByteBuffer& to, const std::string& name, const ByteBuffer& content) {
    appendNumber(to, static_cast<std::uint32_t>(content.size()), 4, BigEndian);
    const std::size_t from = to.size();
    text(to, name);
    append(to, content);
    appendNumber(to, pngChecksum(slice(to, from, to.size() - from)), 4, BigEndian);
}

void riffChunk(ByteBuffer& to, const std::string& name, const ByteBuffer& content) {
    text(to, name);
    appendNumber(to, static_cast<std::uint32_t>(content.size()), 4, LittleEndian);
    append(to, content);
    if (content.size() % 2 == 1) {
        to.push_back(0);
    }
}

ByteBuffer textOf(const std::string& s) { return {s.begin(), s.end()}; }

} // namespace

ByteBuffer pixelBytes() {
    ByteBuffer bytes;
    for (unsigned i = 0; i < 400; ++i) {
        bytes.push_back(static_cast<std::uint8_t>((i * 37 + i / 7) & 0x7FU));
    }
    return bytes;
}

ByteBuffer jpegFile(const FileWish& wish) {
    ByteBuffer file = {0xFF, 0xD8};
    segment(file, 0xE0, textOf(std::string("JFIF\0\1\2\0\0\1\0\1\0\0", 14)));
    ByteBuffer app1 = textOf(std::string("Exif\0\0", 6));
    append(app1, exif(wish));
    segment(file, 0xE1, app1);
    segment(file, 0xE1,
            textOf(std::string("http://ns.adobe.com/xap/1.0/\0", 29) + "<x exif:GPSLatitude='" +
                   secret + "'/>"));
    segment(file, 0xE2, textOf(std::string("ICC_PROFILE\0\1\1", 14) + "profile"));
    segment(file, 0xED, textOf(std::string("Photoshop 3.0\0", 14) + secret));
    segment(file, 0xFE, textOf(secret));
    ByteBuffer frame = {8};
    appendNumber(frame, wish.height, 2, BigEndian);
    appendNumber(frame, wish.width, 2, BigEndian);
    frame.push_back(wish.printingColours ? 4 : 3);
    frame.resize(frame.size() + 9);
    segment(file, 0xC0, frame);
    segment(file, 0xDA, {3, 1, 0, 2, 17, 3, 17, 0, 63, 0});
    append(file, pixelBytes());
    append(file, std::array<std::uint8_t, 4>{0xFF, 0x00, 0xFF, 0xD3}); // stuffed, and a restart
    append(file, pixelBytes());
    append(file, std::array<std::uint8_t, 2>{0xFF, 0xD9});
    text(file, "a short film: " + secret); // phones hang one on
    return file;
}

ByteBuffer pngFile(const FileWish& wish) {
    ByteBuffer file = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
    ByteBuffer header;
    appendNumber(header, wish.width, 4, BigEndian);
    appendNumber(header, wish.height, 4, BigEndian);
    append(header, std::array<std::uint8_t, 5>{8, 2, 0, 0, 0});
    chunk(file, "IHDR", header);
    if (wish.animated) {
        chunk(file, "acTL", {0, 0, 0, 5, 0, 0, 0, 0});
    }
    chunk(file, "eXIf", exif(wish));
    chunk(file, "iTXt", textOf(std::string("XML:com.adobe.xmp\0\0\0\0\0", 22) + secret));
    chunk(file, "tEXt", textOf(std::string("Comment\0", 8) + secret));
    chunk(file, "iCCP", textOf("profile"));
    chunk(file, "IDAT", pixelBytes());
    chunk(file, "IEND", {});
    text(file, secret);
    return file;
}

ByteBuffer webpFile(const FileWish& wish) {
    ByteBuffer body = textOf("WEBP");
    ByteBuffer head = {static_cast<std::uint8_t>(0x0CU | (wish.animated ? 2U : 0U)), 0, 0, 0};
    appendNumber(head, wish.width - 1, 3, LittleEndian);
    appendNumber(head, wish.height - 1, 3, LittleEndian);
    riffChunk(body, "VP8X", head);
    if (wish.animated) {
        riffChunk(body, "ANIM", {0, 0, 0, 0, 0, 0});
    }
    riffChunk(body, "VP8 ", pixelBytes());
    riffChunk(body, "EXIF", exif(wish));
    riffChunk(body, "XMP ", textOf("<x>" + secret + "</x>"));
    ByteBuffer file = textOf("RIFF");
    appendNumber(file, static_cast<std::uint32_t>(body.size()), 4, LittleEndian);
    append(file, body);
    return file;
}

ByteBuffer tiffFile(const FileWish& wish, ByteOrder order) {
    ByteBuffer file =
        order == LittleEndian ? textOf(std::string("II*\0", 4)) : textOf(std::string("MM\0*", 4));
    const auto size = [](const std::string& s) { return static_cast<std::uint32_t>(s.size()); };
    const std::uint32_t pixels = 8 + 2 + 12 * 11 + 4;
    const auto pixelSize = static_cast<std::uint32_t>(pixelBytes().size());
    const std::uint32_t xmp = pixels + pixelSize;
    const std::uint32_t gps = xmp + size(secret);
    const std::uint32_t camera = gps + 2 + 12 + 4 + size(secret);
    appendNumber(file, 8, 4, order);
    directory(file,
              {{256, 3, 1, wish.width},
               {257, 3, 1, wish.height},
               {262, 3, 1, wish.printingColours ? 5U : 2U},
               {271, 2, size(secret), xmp},
               {273, 4, 1, pixels},
               {274, 3, 1, static_cast<std::uint32_t>(wish.orientation)},
               {278, 3, 1, wish.height},
               {279, 4, 1, pixelSize},
               {700, 1, size(secret), xmp},
               {34665, 4, 1, camera},
               {34853, 4, 1, gps}},
              order);
    append(file, pixelBytes());
    text(file, secret);
    directory(file, {{2, 2, size(secret), gps + 2 + 12 + 4}}, order);
    text(file, secret);
    directory(file, {{37500, 7, size(secret), camera + 2 + 12 + 4}}, order);
    text(file, secret);
    return file;
}

bool contains(const ByteBuffer& file, Bytes what) {
    return std::search(file.begin(), file.end(), what.begin(), what.end()) != file.end();
}
bool contains(const ByteBuffer& file, const std::string& what) {
    return std::search(file.begin(), file.end(), what.begin(), what.end()) != file.end();
}

} // namespace stavewright::photo::testing
