// The one way a job's JSON is laid out: the same values always give the same bytes.

#include <algorithm>

#include "core/job/write/Writers.h"

namespace stavewright::job {

namespace {

/// Text that is not UTF-8 cannot stand in JSON: such bytes become U+FFFD.
std::string plain(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void newLine(std::string& text, std::size_t depth) {
    text += '\n';
    text.append(2 * depth, ' ');
}

void append(std::string& text, const Json& json, std::size_t depth) {
    if (json.empty() || !json.is_structured()) {
        text += plain(json);
        return;
    }
    const bool onOneLine =
        json.is_array() &&
        std::all_of(json.begin(), json.end(), [](const Json& item) { return item.is_number(); });
    text += json.is_array() ? '[' : '{';
    bool first = true;
    for (const auto& [key, value] : json.items()) {
        if (!first) {
            text += onOneLine ? ", " : ",";
        }
        first = false;
        if (!onOneLine) {
            newLine(text, depth + 1);
        }
        if (json.is_object()) {
            text += plain(Json(key)) + ": ";
        }
        append(text, value, depth + 1);
    }
    if (!onOneLine) {
        newLine(text, depth);
    }
    text += json.is_array() ? ']' : '}';
}

} // namespace

std::string canonicalText(const Json& json) {
    std::string text;
    append(text, json, 0);
    text += '\n';
    return text;
}

} // namespace stavewright::job
