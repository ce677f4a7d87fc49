#pragma once
// A parsed JSON text, strict: no key twice, at most 64 levels deep, numbers kept as they were
// typed.
//
//   Result<JsonValue> value = parseJson(R"({"kerf": 3175000})");
//   value.value().find("kerf")->number   -> 3175000

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/Result.h"
#include "core/units/Length.h"

namespace stavewright::job {

// A rack of 2 000 boards with 30 knots each, marked on both faces, is 143 MiB of text and 10
// million values; the limits leave half as much again and keep a hostile text from taking all
// memory.
inline constexpr std::size_t mebibyte = std::size_t{1024} * 1024;
inline constexpr std::size_t mostJsonBytes = 224 * mebibyte;
inline constexpr std::size_t mostJsonValues = 16'000'000;
inline constexpr std::size_t deepestJson = 64;

struct JsonMember;

struct JsonValue {
    enum class Kind { Null, Boolean, Integer, Decimal, Text, List, Object };
    Kind kind = Kind::Null;
    bool boolean = false;
    Int128 number = 0; ///< of an Integer: anything that 64 bits hold, signed or not
    std::string text;  ///< of a Text; of a Decimal, the number as typed
    std::vector<JsonValue> items;
    std::vector<JsonMember> members; ///< sorted by key

    /// The member of an object; null when there is none.
    [[nodiscard]] const JsonValue* find(std::string_view key) const;
};

struct JsonMember {
    std::string first; ///< the key
    JsonValue second;
};

/// The value as shown in a message: short, on one line.
[[nodiscard]] std::string shown(const JsonValue& value);

/// Refuses what is not JSON with line and column; a key given twice with its JSON pointer.
Result<JsonValue> parseJson(std::string_view text);

/// "/boards/0" + "a/b" -> "/boards/0/a~1b" (RFC 6901).
[[nodiscard]] std::string pointerTo(const std::string& parent, std::string_view key);

} // namespace stavewright::job
