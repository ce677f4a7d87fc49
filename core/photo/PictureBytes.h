#pragma once
// Bytes of a picture file that nobody vouches for: every read is checked.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace stavewright::photo {

using Bytes = std::span<const std::uint8_t>;
using ByteBuffer = std::vector<std::uint8_t>;

/// Part of `bytes`, cut short where there are fewer.
[[nodiscard]] inline Bytes slice(Bytes bytes, std::size_t from, std::size_t count) {
    if (from >= bytes.size()) {
        return {};
    }
    return bytes.subspan(from, std::min(count, bytes.size() - from));
}

[[nodiscard]] inline bool startsWith(Bytes bytes, std::string_view text) {
    if (bytes.size() < text.size()) {
        return false;
    }
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (bytes[i] != static_cast<std::uint8_t>(text[i])) {
            return false;
        }
    }
    return true;
}

enum class ByteOrder { LittleEndian, BigEndian };

/// An unsigned number of `size` (1 to 4) bytes; nothing beyond the end.
[[nodiscard]] inline std::optional<std::uint32_t> number(Bytes bytes, std::size_t at,
                                                         std::size_t size, ByteOrder order) {
    if (at > bytes.size() || size > bytes.size() - at) {
        return std::nullopt;
    }
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
        const std::size_t k = order == ByteOrder::BigEndian ? i : size - 1 - i;
        value = (value << 8) | bytes[at + k];
    }
    return value;
}

inline void append(ByteBuffer& to, Bytes bytes) { to.insert(to.end(), bytes.begin(), bytes.end()); }

inline void appendNumber(ByteBuffer& to, std::uint32_t value, std::size_t size, ByteOrder order) {
    for (std::size_t i = 0; i < size; ++i) {
        const std::size_t k = order == ByteOrder::BigEndian ? size - 1 - i : i;
        to.push_back(static_cast<std::uint8_t>(value >> (8 * k)));
    }
}

} // namespace stavewright::photo
