#include "core/units/Glyph.h"

#include <cstddef>

namespace stavewright::reading {

namespace {

constexpr char32_t replacement = U'\uFFFD';
constexpr std::size_t longestQuote = 60;

struct Decoded {
    char32_t character = replacement;
    std::size_t bytes = 1;
};

Decoded decodeOne(std::string_view text) {
    const auto byteAt = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned first = byteAt(0);
    if (first < 0x80) {
        return {first, 1};
    }
    std::size_t length = 0;
    char32_t character = 0;
    char32_t smallest = 0;
    if ((first & 0xE0U) == 0xC0U) {
        length = 2;
        character = first & 0x1FU;
        smallest = 0x80;
    } else if ((first & 0xF0U) == 0xE0U) {
        length = 3;
        character = first & 0x0FU;
        smallest = 0x800;
    } else if ((first & 0xF8U) == 0xF0U) {
        length = 4;
        character = first & 0x07U;
        smallest = 0x10000;
    }
    if (length == 0 || text.size() < length) {
        return {};
    }
    for (std::size_t i = 1; i < length; ++i) {
        if ((byteAt(i) & 0xC0U) != 0x80U) {
            return {};
        }
        character = (character << 6U) | (byteAt(i) & 0x3FU);
    }
    const bool surrogate = character >= 0xD800 && character <= 0xDFFF;
    if (character < smallest || character > 0x10FFFF || surrogate) {
        return {};
    }
    return {character, length};
}

} // namespace

std::vector<char32_t> decodeUtf8(std::string_view text) {
    std::vector<char32_t> characters;
    characters.reserve(text.size());
    while (!text.empty()) {
        const Decoded decoded = decodeOne(text);
        characters.push_back(decoded.character);
        text.remove_prefix(decoded.bytes);
    }
    return characters;
}

void appendUtf8(std::string& target, char32_t character) {
    const auto append = [&](char32_t byte) { target.push_back(static_cast<char>(byte)); };
    if (character < 0x80) {
        append(character);
    } else if (character < 0x800) {
        append(0xC0U | (character >> 6U));
        append(0x80U | (character & 0x3FU));
    } else if (character < 0x10000) {
        append(0xE0U | (character >> 12U));
        append(0x80U | ((character >> 6U) & 0x3FU));
        append(0x80U | (character & 0x3FU));
    } else {
        append(0xF0U | (character >> 18U));
        append(0x80U | ((character >> 12U) & 0x3FU));
        append(0x80U | ((character >> 6U) & 0x3FU));
        append(0x80U | (character & 0x3FU));
    }
}

bool isBlank(char32_t character) {
    switch (character) {
    case U' ':
    case U'\t':
    case U'\n':
    case U'\r':
    case U'\u00A0': // no-break
    case U'\u202F': // narrow no-break
        return true;
    default:
        return character >= U'\u2000' && character <= U'\u200A'; // en, em, thin, hair...
    }
}

std::string inQuotes(std::string_view text) {
    std::string result = "“";
    // Four bytes a character at most: enough of the text, however long it is.
    const auto characters = decodeUtf8(text.substr(0, 4 * longestQuote + 4));
    std::size_t written = 0;
    for (const char32_t character : characters) {
        if (written == longestQuote) {
            result += "…";
            break;
        }
        const bool control = character < 0x20 || (character >= 0x7F && character < 0xA0);
        appendUtf8(result, control ? U' ' : character);
        ++written;
    }
    return result + "”";
}

} // namespace stavewright::reading
