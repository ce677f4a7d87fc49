#pragma once
// Text of the core for the window. The core writes UTF-8.

#include <QString>

#include <string>
#include <string_view>

namespace stavewright::ui {

[[nodiscard]] inline QString words(std::string_view utf8) {
    return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size()));
}

} // namespace stavewright::ui
