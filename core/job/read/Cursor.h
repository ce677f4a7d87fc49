#pragma once
// A typed way through a parsed JSON text. A cursor stands on one value and knows its JSON pointer;
// the first thing that is wrong is kept, everything after it is read as if it were right, and
// nothing throws.
//
//   void read(const Cursor& at, Saw& saw) {
//       Object object(at);
//       object.required("kerf", saw.kerf);
//       object.optional("widest", saw.widest);     // keeps its default when the key is missing
//       object.finish();                           // unknown and missing keys
//   }

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/document/Document.h"
#include "core/job/JsonValue.h"
#include "core/job/Words.h"

namespace stavewright::job {

/// Shared by all cursors of one reading.
struct FirstError {
    std::optional<Error> error;
};

class Cursor {
  public:
    Cursor(const JsonValue& value, FirstError& firstError)
        : m_value(value)
        , m_firstError(firstError) {}

    [[nodiscard]] const JsonValue& value() const { return m_value; }
    [[nodiscard]] std::string pointer() const;
    [[nodiscard]] bool failed() const { return m_firstError.error.has_value(); }

    /// Keeps the error if it is the first one. Messages go on after the place: "is 3 m; ...".
    void fail(std::string message, ErrorCode code = ErrorCode::BadInput) const;
    /// "The value is -4; it must be <due>."
    void failDue(std::string_view due) const;

    // Children; they refer to this cursor, which must outlive them.
    [[nodiscard]] Cursor item(std::size_t index) const;
    [[nodiscard]] Cursor member(std::string_view key, const JsonValue& value) const;

    /// The integer, when the value is one from `least` to `most`; otherwise fails and returns
    /// nothing.
    [[nodiscard]] std::optional<Int128> integer(Int128 least, Int128 most,
                                                std::string_view what) const;
    /// The items of a list of exactly `count` (or any number without it); otherwise fails.
    [[nodiscard]] bool isList(std::string_view what, std::optional<std::size_t> count = {}) const;

  private:
    const JsonValue& m_value;
    FirstError& m_firstError;
    const Cursor* m_parent = nullptr;
    std::string_view m_key; ///< of a member
    std::optional<std::size_t> m_index;
};

void read(const Cursor& at, bool& value);
void read(const Cursor& at, int& value);
void read(const Cursor& at, std::int64_t& value);
void read(const Cursor& at, std::uint64_t& value);
void read(const Cursor& at, std::string& value);
void read(const Cursor& at, Length& value);    ///< nanometres
void read(const Cursor& at, Money& value);     ///< ten-thousandths
void read(const Cursor& at, BoardFeet& value); ///< millionths
void read(const Cursor& at, Point& value);     ///< [x, y]
void read(const Cursor& at, Stretch& value);   ///< [from, to]
void read(const Cursor& at, Rect& value);      ///< [x0, y0, x1, y1]

template <class Tag>
void read(const Cursor& at, Id<Tag>& id) {
    constexpr std::int64_t largestId = 1'000'000'000'000;
    if (const auto number = at.integer(1, largestId, "an id")) {
        id.value = static_cast<std::int64_t>(*number);
    }
}

/// Any enumeration that has its Words.
template <class Enum>
requires requires { Words<Enum>::what; }
void read(const Cursor& at, Enum& value) {
    if (at.value().kind == JsonValue::Kind::Text) {
        if (const auto meant = valueOf<Enum>(at.value().text)) {
            value = *meant;
            return;
        }
    }
    std::string due(Words<Enum>::what);
    std::string_view between = ": ";
    for (const auto& pair : Words<Enum>::all) {
        due.append(between).append("“").append(pair.first).append("”");
        between = ", ";
    }
    at.failDue(due);
}

template <class T>
void read(const Cursor& at, std::optional<T>& value) {
    read(at, value.emplace());
}

template <class T>
void read(const Cursor& at, std::vector<T>& values) {
    if (!at.isList("a list")) {
        return;
    }
    values.clear();
    values.reserve(at.value().items.size());
    for (std::size_t i = 0; i < at.value().items.size() && !at.failed(); ++i) {
        read(at.item(i), values.emplace_back());
    }
}

/// The members of one JSON object, asked for one by one.
class Object {
  public:
    explicit Object(const Cursor& at);

    template <class T>
    void required(std::string_view key, T& target) {
        if (!optional(key, target) && m_missing.empty()) {
            m_missing = key;
        }
    }
    /// False, and the target as it was, when the key is missing.
    template <class T>
    bool optional(std::string_view key, T& target) {
        const JsonValue* value = known(key);
        if (value) {
            read(m_at.member(key, *value), target);
        }
        return value != nullptr;
    }
    /// For values with a reader of their own kind: the member, or nothing. The key counts as known.
    [[nodiscard]] const JsonValue* known(std::string_view key);
    [[nodiscard]] Cursor member(std::string_view key, const JsonValue& value) const {
        return m_at.member(key, value);
    }

    /// Refuses keys that were never asked for, then reports the first required one that is missing.
    void finish() const;

  private:
    const Cursor& m_at;
    std::vector<std::string_view> m_known;
    std::string_view m_missing;
};

} // namespace stavewright::job
