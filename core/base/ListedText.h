#pragma once
// Names in a row, as a sentence lists them.

#include <algorithm>
#include <string>
#include <vector>

namespace stavewright {

/// "R1, R2 and R3"; of more than `most` "R1, R2 and 5 more".
[[nodiscard]] inline std::string listed(const std::vector<std::string>& names,
                                        std::size_t most = std::string::npos) {
    std::string text;
    const std::size_t shown = std::min(names.size(), most);
    for (std::size_t i = 0; i < shown; ++i) {
        text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    }
    if (shown < names.size()) {
        text += " and " + std::to_string(names.size() - shown) + " more";
    }
    return text;
}

} // namespace stavewright
