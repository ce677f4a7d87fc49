#pragma once
// The name of a photograph in a job: the SHA-256 of its bytes (FIPS 180-4).

#include <string>
#include <string_view>

namespace stavewright {

/// 64 hexadecimal digits, lower case.
[[nodiscard]] std::string sha256Of(std::string_view bytes);

/// Whether `text` looks like one.
[[nodiscard]] bool isSha256(std::string_view text);

} // namespace stavewright
