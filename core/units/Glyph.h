#pragma once
// Typed text as one sequence of characters: UTF-8 decoded once, and quoted safely in messages.

#include <string>
#include <string_view>
#include <vector>

namespace stavewright::reading {

/// Bytes that are no valid UTF-8 come out as U+FFFD, one for each.
[[nodiscard]] std::vector<char32_t> decodeUtf8(std::string_view text);
void appendUtf8(std::string& target, char32_t character);

/// True for the blanks that keyboards and spreadsheets produce (space, tab, no-break and thin
/// spaces...).
[[nodiscard]] bool isBlank(char32_t character);
[[nodiscard]] constexpr bool isDigit(char32_t character) {
    return character >= U'0' && character <= U'9';
}
/// Hyphen, en dash and the minus sign all mean minus when typed.
[[nodiscard]] constexpr bool isMinus(char32_t character) {
    return character == U'-' || character == U'\u2212' || character == U'\u2013';
}

/// The text between “ and ”, fit for a message: valid UTF-8, no control characters, at most 60
/// characters.
[[nodiscard]] std::string inQuotes(std::string_view text);

} // namespace stavewright::reading
