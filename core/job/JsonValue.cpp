#include "core/job/JsonValue.h"

#include <algorithm>
#include <set>

#include <nlohmann/json.hpp>

#include "core/units/Glyph.h"

namespace stavewright::job {

namespace {

std::string decimalDigits(Int128 number) {
    const bool negative = number < 0;
    std::string digits;
    do {
        const int digit = static_cast<int>(number % 10);
        digits += static_cast<char>('0' + (digit < 0 ? -digit : digit));
        number /= 10;
    } while (number != 0);
    if (negative) {
        digits += '-';
    }
    std::reverse(digits.begin(), digits.end());
    return digits;
}

/// "line 3, column 17" of the byte at `offset`; columns count characters, not bytes.
std::string lineAndColumn(std::string_view text, std::size_t offset) {
    const std::string_view before = text.substr(0, std::min(offset, text.size()));
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::size_t lineStart = before.rfind('\n') + 1; // npos + 1 is 0
    const auto column =
        1 + std::count_if(before.begin() + static_cast<std::ptrdiff_t>(lineStart), before.end(),
                          [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    return "line " + std::to_string(line) + ", column " + std::to_string(column);
}

Error badText(std::string message, std::string place) {
    return {ErrorCode::BadInput, std::move(message), std::move(place)};
}

/// Offset of the first byte that is not UTF-8 (no overlong forms, no surrogates); the size when all
/// is.
std::size_t validUtf8Until(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        const auto byte = [&](std::size_t i) {
            return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
        };
        const unsigned first = byte(at);
        std::size_t length = 1;
        unsigned low = 0x80; // allowed range of the second byte
        unsigned high = 0xBF;
        if (first >= 0xC2 && first <= 0xDF) {
            length = 2;
        } else if (first >= 0xE0 && first <= 0xEF) {
            length = 3;
            low = first == 0xE0 ? 0xA0 : 0x80;
            high = first == 0xED ? 0x9F : 0xBF;
        } else if (first >= 0xF0 && first <= 0xF4) {
            length = 4;
            low = first == 0xF0 ? 0x90 : 0x80;
            high = first == 0xF4 ? 0x8F : 0xBF;
        } else if (first >= 0x80) {
            return at;
        }
        for (std::size_t i = 1; i < length; ++i) {
            if (byte(at + i) < low || byte(at + i) > high) {
                return at;
            }
            low = 0x80;
            high = 0xBF;
        }
        at += length;
    }
    return at;
}

/// Builds the value from the parser's events; stops at the first thing that is refused.
class Builder : public nlohmann::json_sax<nlohmann::json> {
  public:
    explicit Builder(std::string_view text)
        : m_text(text) {}

    JsonValue root;
    std::optional<Error> error;

    bool null() override { return add({}); }
    bool boolean(bool value) override {
        JsonValue made;
        made.kind = JsonValue::Kind::Boolean;
        made.boolean = value;
        return add(std::move(made));
    }
    bool number_integer(number_integer_t value) override { return addInteger(value); }
    bool number_unsigned(number_unsigned_t value) override { return addInteger(value); }
    bool number_float(number_float_t, const string_t& typed) override {
        JsonValue made;
        made.kind = JsonValue::Kind::Decimal;
        made.text = typed;
        return add(std::move(made));
    }
    bool string(string_t& value) override {
        JsonValue made;
        made.kind = JsonValue::Kind::Text;
        made.text = std::move(value);
        return add(std::move(made));
    }
    bool binary(binary_t&) override { return false; } // never occurs in text
    bool start_object(std::size_t) override { return open(JsonValue::Kind::Object); }
    bool start_array(std::size_t) override { return open(JsonValue::Kind::List); }
    bool key(string_t& name) override {
        Open& open = m_open.back();
        if (!open.keys.insert(name).second) {
            error = badText("The key " + reading::inQuotes(name) +
                                " is given twice in one object; each key may stand there once.",
                            pointerTo(pointer(), name));
            return false;
        }
        open.value->members.push_back({std::move(name), {}});
        return true;
    }
    bool end_object() override {
        auto& members = m_open.back().value->members;
        std::sort(members.begin(), members.end(),
                  [](const auto& a, const auto& b) { return a.first < b.first; });
        m_open.pop_back();
        return true;
    }
    bool end_array() override {
        m_open.pop_back();
        return true;
    }
    bool parse_error(std::size_t position, const std::string& token,
                     const nlohmann::detail::exception& exception) override {
        constexpr int numberOverflow = 406;
        if (exception.id == numberOverflow) {
            error = badText("The number " + reading::inQuotes(token) + " is too large.", pointer());
            return false;
        }
        if (position > m_text.size()) {
            error = badText("This is not JSON: the text ends too early.",
                            lineAndColumn(m_text, m_text.size()));
            return false;
        }
        // position counts the bytes read so far; the last of them is the one that does not fit
        const std::size_t start = wordStart(position == 0 ? 0 : position - 1);
        error = badText("This is not JSON: " + reading::inQuotes(wordFrom(start)) +
                            " cannot stand here.",
                        lineAndColumn(m_text, start));
        return false;
    }

  private:
    struct Open {
        JsonValue* value; ///< stays put: only the innermost open value grows
        std::set<std::string> keys;
    };

    static bool isWord(char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '+' || c == '-' || c == '.' || c == '_';
    }
    /// Of the word that the byte at `at` belongs to ("NaN", "01"); `at` itself for other bytes.
    std::size_t wordStart(std::size_t at) const {
        while (at > 0 && isWord(m_text[at]) && isWord(m_text[at - 1])) {
            --at;
        }
        return at;
    }
    std::string_view wordFrom(std::size_t start) const {
        std::size_t end = start + 1;
        while (isWord(m_text[start]) && end < m_text.size() && isWord(m_text[end])) {
            ++end;
        }
        return m_text.substr(start, end - start);
    }

    bool addInteger(Int128 value) {
        JsonValue made;
        made.kind = JsonValue::Kind::Integer;
        made.number = value;
        return add(std::move(made));
    }
    bool add(JsonValue value) {
        if (++m_count > mostJsonValues) {
            error = badText("The text holds more than " + std::to_string(mostJsonValues) +
                                " values, which no job needs.",
                            pointer());
            return false;
        }
        if (m_open.empty()) {
            root = std::move(value);
            m_last = &root;
            return true;
        }
        JsonValue& parent = *m_open.back().value;
        if (parent.kind == JsonValue::Kind::Object) {
            parent.members.back().second = std::move(value);
            m_last = &parent.members.back().second;
        } else {
            parent.items.push_back(std::move(value));
            m_last = &parent.items.back();
        }
        return true;
    }
    bool open(JsonValue::Kind kind) {
        if (m_open.size() == deepestJson) {
            error = badText("Lists and objects are nested too deep; at most " +
                                std::to_string(deepestJson) + " levels are allowed.",
                            pointer());
            return false;
        }
        JsonValue made;
        made.kind = kind;
        if (!add(std::move(made))) {
            return false;
        }
        m_open.push_back({m_last, {}});
        return true;
    }
    /// To the innermost open value.
    std::string pointer() const {
        std::string pointer;
        for (std::size_t i = 0; i + 1 < m_open.size(); ++i) {
            const JsonValue& value = *m_open[i].value;
            pointer = pointerTo(pointer, value.kind == JsonValue::Kind::Object
                                             ? value.members.back().first
                                             : std::to_string(value.items.size() - 1));
        }
        return pointer;
    }

    std::string_view m_text;
    std::vector<Open> m_open;
    JsonValue* m_last = nullptr; ///< the value added last
    std::size_t m_count = 0;
};

} // namespace

const JsonValue* JsonValue::find(std::string_view key) const {
    const auto found =
        std::lower_bound(members.begin(), members.end(), key,
                         [](const auto& member, std::string_view k) { return member.first < k; });
    return found != members.end() && found->first == key ? &found->second : nullptr;
}

std::string shown(const JsonValue& value) {
    switch (value.kind) {
    case JsonValue::Kind::Null:
        return "null";
    case JsonValue::Kind::Boolean:
        return value.boolean ? "true" : "false";
    case JsonValue::Kind::Integer:
        return decimalDigits(value.number);
    case JsonValue::Kind::Decimal:
        return value.text.size() <= 40 ? value.text : value.text.substr(0, 40) + "...";
    case JsonValue::Kind::Text:
        return reading::inQuotes(value.text);
    case JsonValue::Kind::List:
        return "a list of " + std::to_string(value.items.size());
    case JsonValue::Kind::Object:
        break;
    }
    return "an object";
}

Result<JsonValue> parseJson(std::string_view text) {
    if (text.size() > mostJsonBytes) {
        return badText("The job's text has " + std::to_string(text.size()) + " bytes; at most " +
                           std::to_string(mostJsonBytes / mebibyte) + " MiB are allowed.",
                       {});
    }
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
        return badText("The job's text is empty; an object with the key “formatVersion” is due.",
                       {});
    }
    const std::size_t valid = validUtf8Until(text);
    if (valid < text.size()) {
        return badText("The text is not valid UTF-8 here.", lineAndColumn(text, valid));
    }
    Builder builder(text);
    if (!nlohmann::json::sax_parse(text, &builder)) {
        if (builder.error) {
            return *std::move(builder.error);
        }
        return badText("This is not JSON.", {});
    }
    return std::move(builder.root);
}

std::string pointerTo(const std::string& parent, std::string_view key) {
    std::string pointer = parent + '/';
    for (const char c : key) {
        if (c == '~') {
            pointer += "~0";
        } else if (c == '/') {
            pointer += "~1";
        } else {
            pointer += c;
        }
    }
    return pointer;
}

} // namespace stavewright::job
