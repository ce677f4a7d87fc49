#pragma once
// Small things done to text that was typed or pasted; letters of ASCII only, the rest stays.

#include <string>
#include <string_view>

namespace stavewright {

/// Without what `blanks` lists at either end.
[[nodiscard]] inline std::string_view trimmed(std::string_view text,
                                              std::string_view blanks = " ") {
    const std::size_t first = text.find_first_not_of(blanks);
    return first == std::string_view::npos
               ? std::string_view()
               : text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

[[nodiscard]] inline std::string lowerCase(std::string_view text) {
    std::string lower(text);
    for (char& c : lower) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return lower;
}

} // namespace stavewright
