#include "core/photo/PictureParts.h"

namespace stavewright::photo {

namespace {

using enum ByteOrder;

Error cutOff(const char* format) {
    return {ErrorCode::BadInput,
            std::string("The ") + format + " is cut off or damaged; copy it from the camera again.",
            {}};
}

/// Markers that stand alone.
bool standsAlone(std::uint8_t marker) {
    return marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7);
}

/// Behind the compressed data that start here: at the next marker that is none of theirs.
std::size_t behindScan(Bytes file, std::size_t at) {
    while (at + 1 < file.size()) {
        if (file[at] == 0xFF && file[at + 1] != 0x00 && file[at + 1] != 0xFF &&
            !standsAlone(file[at + 1])) {
            return at;
        }
        ++at;
    }
    return file.size();
}

std::size_t typeSize(std::uint32_t type) {
    constexpr std::array<std::size_t, 14> sizes = {0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4};
    return type < sizes.size() ? sizes[type] : 0;
}

constexpr std::uint32_t orientationTag = 0x0112;

} // namespace

Result<JpegParts> jpegParts(Bytes file) {
    JpegParts parts;
    std::size_t at = 2;
    while (true) {
        while (at + 1 < file.size() && file[at] == 0xFF && file[at + 1] == 0xFF) {
            ++at; // fill bytes
        }
        if (at + 1 >= file.size() || file[at] != 0xFF) {
            return cutOff("JPEG");
        }
        const std::uint8_t marker = file[at + 1];
        if (marker == 0xD9) {
            if (parts.scansFrom == 0) {
                return cutOff("JPEG");
            }
            parts.end = at + 2;
            return parts;
        }
        if (standsAlone(marker)) {
            at += 2;
            continue;
        }
        const auto length = number(file, at + 2, 2, BigEndian);
        if (!length || *length < 2 || *length > file.size() - at - 2) {
            return cutOff("JPEG");
        }
        const std::size_t size = *length + 2;
        if (marker == 0xDA) {
            if (parts.scansFrom == 0) {
                parts.scansFrom = at;
            }
            at = behindScan(file, at + size);
            continue;
        }
        if (parts.scansFrom == 0) {
            parts.segments.push_back({marker, at, size, slice(file, at + 4, *length - 2)});
        }
        at += size;
    }
}

std::uint32_t pngChecksum(Bytes bytes) {
    static const std::array<std::uint32_t, 256> table = [] {
        std::array<std::uint32_t, 256> values{};
        for (std::uint32_t i = 0; i < values.size(); ++i) {
            std::uint32_t value = i;
            for (int bit = 0; bit < 8; ++bit) {
                value = (value >> 1) ^ ((value & 1U) != 0 ? 0xEDB88320U : 0U);
            }
            values[i] = value;
        }
        return values;
    }();
    std::uint32_t crc = 0xFFFFFFFFU;
    for (const std::uint8_t byte : bytes) {
        crc = (crc >> 8) ^ table[(crc ^ byte) & 0xFFU];
    }
    return ~crc;
}

Result<std::vector<Chunk>> pngChunks(Bytes file) {
    std::vector<Chunk> chunks;
    std::size_t at = 8;
    while (true) {
        const auto length = number(file, at, 4, BigEndian);
        if (!length || at + 12 > file.size() || *length > file.size() - at - 12) {
            return cutOff("PNG");
        }
        Chunk chunk;
        for (std::size_t i = 0; i < 4; ++i) {
            chunk.name[i] = static_cast<char>(file[at + 4 + i]);
        }
        chunk.from = at;
        chunk.size = *length + 12;
        chunk.content = slice(file, at + 8, *length);
        if (number(file, at + 8 + *length, 4, BigEndian) !=
            pngChecksum(slice(file, at + 4, *length + 4))) {
            return cutOff("PNG");
        }
        chunks.push_back(chunk);
        if (chunk.is("IEND")) {
            return chunks;
        }
        at += chunk.size;
    }
}

Result<std::vector<Chunk>> webpChunks(Bytes file) {
    const auto riff = number(file, 4, 4, LittleEndian);
    if (!riff || *riff < 4 || *riff > file.size() - 8) {
        return cutOff("WebP");
    }
    const Bytes inside = slice(file, 0, *riff + 8);
    std::vector<Chunk> chunks;
    std::size_t at = 12;
    while (at < inside.size()) {
        const auto length = number(inside, at + 4, 4, LittleEndian);
        if (!length || at + 8 > inside.size() || *length > inside.size() - at - 8) {
            return cutOff("WebP");
        }
        Chunk chunk;
        for (std::size_t i = 0; i < 4; ++i) {
            chunk.name[i] = static_cast<char>(inside[at + i]);
        }
        chunk.from = at;
        chunk.size = std::min<std::size_t>(*length + 8U + (*length & 1U), inside.size() - at);
        chunk.content = slice(inside, at + 8, *length);
        chunks.push_back(chunk);
        at += chunk.size;
    }
    return chunks;
}

std::optional<TiffReader> TiffReader::open(Bytes data) {
    TiffReader reader;
    reader.m_data = data;
    if (startsWith(data, "MM")) {
        reader.m_order = BigEndian;
    } else if (!startsWith(data, "II")) {
        return std::nullopt;
    }
    const auto magic = number(data, 2, 2, reader.m_order);
    const auto first = number(data, 4, 4, reader.m_order);
    if (!magic || *magic != 42 || !first) {
        return std::nullopt;
    }
    reader.m_first = *first;
    return reader;
}

std::optional<Directory> TiffReader::directoryAt(std::size_t at) const {
    const auto count = number(m_data, at, 2, m_order);
    if (at < 8 || !count || at + 2 + std::size_t{12} * *count > m_data.size()) {
        return std::nullopt;
    }
    Directory directory;
    directory.at = at;
    for (std::size_t i = 0; i < *count; ++i) {
        DirectoryEntry entry;
        entry.at = at + 2 + 12 * i;
        entry.tag = number(m_data, entry.at, 2, m_order).value_or(0);
        entry.type = number(m_data, entry.at + 2, 2, m_order).value_or(0);
        entry.count = number(m_data, entry.at + 4, 4, m_order).value_or(0);
        const std::size_t size = typeSize(entry.type) * std::size_t{entry.count};
        entry.valueAt =
            size <= 4 ? entry.at + 8 : number(m_data, entry.at + 8, 4, m_order).value_or(0);
        entry.valueSize = slice(m_data, entry.valueAt, size).size();
        entry.cutOff = entry.valueSize < size;
        directory.entries.push_back(entry);
    }
    directory.next = number(m_data, at + 2 + std::size_t{12} * *count, 4, m_order).value_or(0);
    return directory;
}

std::optional<std::uint32_t> TiffReader::valueOf(const DirectoryEntry& entry, std::size_t i) const {
    const std::size_t size = typeSize(entry.type);
    const bool whole = entry.type == 1 || entry.type == 3 || entry.type == 4 || entry.type == 13;
    if (!whole || i >= entry.count || (i + 1) * size > entry.valueSize) {
        return std::nullopt;
    }
    return number(m_data, entry.valueAt + i * size, size, m_order);
}

const DirectoryEntry* TiffReader::find(const Directory& directory, std::uint32_t tag) {
    for (const DirectoryEntry& entry : directory.entries) {
        if (entry.tag == tag) {
            return &entry;
        }
    }
    return nullptr;
}

int orientationIn(Bytes exif) {
    const std::optional<TiffReader> reader = TiffReader::open(exif);
    const auto directory = reader ? reader->directoryAt(reader->firstDirectory()) : std::nullopt;
    const DirectoryEntry* entry =
        directory ? TiffReader::find(*directory, orientationTag) : nullptr;
    const auto value = entry != nullptr ? reader->valueOf(*entry) : std::nullopt;
    return value && *value >= 1 && *value <= 8 ? static_cast<int>(*value) : 1;
}

ByteBuffer exifOfOrientation(int orientation) {
    ByteBuffer exif = {'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1};
    appendNumber(exif, orientationTag, 2, BigEndian);
    appendNumber(exif, 3, 2, BigEndian); // a short number
    appendNumber(exif, 1, 4, BigEndian);
    appendNumber(exif, static_cast<std::uint32_t>(orientation), 2, BigEndian);
    appendNumber(exif, 0, 2, BigEndian);
    appendNumber(exif, 0, 4, BigEndian); // no further directory
    return exif;
}

} // namespace stavewright::photo
