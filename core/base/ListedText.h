#pragma once
// Names in a row, as a sentence lists them.

#include <string>
#include <vector>

namespace stavewright {

/// "R1, R2 and R3"
[[nodiscard]] inline std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    }
    return text;
}

} // namespace stavewright
