#include "core/job/read/Cursor.h"

#include <algorithm>
#include <limits>

#include "core/document/Limits.h"
#include "core/units/Glyph.h"

namespace stavewright::job {

std::string Cursor::pointer() const {
    if (!m_parent) {
        return {};
    }
    return pointerTo(m_parent->pointer(), m_index ? std::to_string(*m_index) : m_key);
}

void Cursor::fail(std::string message, ErrorCode code) const {
    if (!failed()) {
        m_firstError.error = Error{code, std::move(message), pointer()};
    }
}

void Cursor::failDue(std::string_view due) const {
    if (!failed()) {
        fail("The value is " + shown(m_value) + "; it must be " + std::string(due) + '.');
    }
}

Cursor Cursor::item(std::size_t index) const {
    Cursor child(m_value.items[index], m_firstError);
    child.m_parent = this;
    child.m_index = index;
    return child;
}

Cursor Cursor::member(std::string_view key, const JsonValue& value) const {
    Cursor child(value, m_firstError);
    child.m_parent = this;
    child.m_key = key;
    return child;
}

std::optional<Int128> Cursor::integer(Int128 least, Int128 most, std::string_view what) const {
    if (m_value.kind == JsonValue::Kind::Integer && m_value.number >= least &&
        m_value.number <= most) {
        return m_value.number;
    }
    if (!failed()) {
        JsonValue bounds[2];
        bounds[0].kind = bounds[1].kind = JsonValue::Kind::Integer;
        bounds[0].number = least;
        bounds[1].number = most;
        failDue("a whole number from " + shown(bounds[0]) + " to " + shown(bounds[1]) + ", " +
                std::string(what));
    }
    return std::nullopt;
}

bool Cursor::isList(std::string_view what, std::optional<std::size_t> count) const {
    if (m_value.kind == JsonValue::Kind::List && (!count || m_value.items.size() == *count)) {
        return true;
    }
    failDue(what);
    return false;
}

namespace {

template <class Number>
void readInteger(const Cursor& at, Number& value, Int128 least, Int128 most,
                 std::string_view what) {
    if (const auto number = at.integer(least, most, what)) {
        value = static_cast<Number>(*number);
    }
}

template <class... Lengths>
void readLengths(const Cursor& at, std::string_view what, Lengths&... lengths) {
    if (at.isList(what, sizeof...(lengths))) {
        std::size_t index = 0;
        (read(at.item(index++), lengths), ...);
    }
}

} // namespace

void read(const Cursor& at, bool& value) {
    if (at.value().kind == JsonValue::Kind::Boolean) {
        value = at.value().boolean;
    } else {
        at.failDue("true or false");
    }
}

void read(const Cursor& at, int& value) {
    constexpr int most = 1'000'000'000;
    readInteger(at, value, -most, most, "a count");
}

void read(const Cursor& at, std::int64_t& value) {
    constexpr std::int64_t most = 1'000'000'000'000'000'000;
    readInteger(at, value, -most, most, "a number");
}

void read(const Cursor& at, std::uint64_t& value) {
    readInteger(at, value, 0, std::numeric_limits<std::uint64_t>::max(), "a number");
}

void read(const Cursor& at, std::string& value) {
    if (at.value().kind == JsonValue::Kind::Text) {
        value = at.value().text;
    } else {
        at.failDue("a text");
    }
}

void read(const Cursor& at, Length& value) {
    const Int128 most = limits::anyLength.inNanometres();
    if (const auto number = at.integer(-most, most, "a length in nanometres")) {
        value = Length::nanometres(static_cast<std::int64_t>(*number));
    }
}

void read(const Cursor& at, Money& value) {
    constexpr std::int64_t most = 1'000'000'000'000'000;
    if (const auto number = at.integer(-most, most, "an amount of money in ten-thousandths")) {
        value = Money::tenThousandths(static_cast<std::int64_t>(*number));
    }
}

void read(const Cursor& at, BoardFeet& value) {
    constexpr std::int64_t most = 1'000'000'000'000'000;
    if (const auto number = at.integer(-most, most, "a measure in millionths of a board foot")) {
        value = BoardFeet::millionths(static_cast<std::int64_t>(*number));
    }
}

void read(const Cursor& at, Point& value) {
    readLengths(at, "a point, a list of two lengths [x, y]", value.x, value.y);
}

void read(const Cursor& at, Stretch& value) {
    readLengths(at, "a stretch, a list of two lengths [from, to]", value.from, value.to);
}

void read(const Cursor& at, Rect& value) {
    readLengths(at, "a rectangle, a list of four lengths [x0, y0, x1, y1]", value.x0, value.y0,
                value.x1, value.y1);
}

Object::Object(const Cursor& at)
    : m_at(at) {
    if (at.value().kind != JsonValue::Kind::Object) {
        at.failDue("an object");
    }
}

const JsonValue* Object::known(std::string_view key) {
    m_known.push_back(key);
    return m_at.value().find(key);
}

void Object::finish() const {
    if (m_at.failed()) {
        return;
    }
    for (const auto& [key, value] : m_at.value().members) {
        if (std::find(m_known.begin(), m_known.end(), key) == m_known.end()) {
            std::string allowed;
            for (const std::string_view one : m_known) {
                allowed.append(allowed.empty() ? "" : ", ").append(one);
            }
            m_at.fail("There is no key " + reading::inQuotes(key) + " here; allowed are " +
                      allowed + '.');
            return;
        }
    }
    if (!m_missing.empty()) {
        m_at.fail("The key " + reading::inQuotes(m_missing) + " is missing.");
    }
}

} // namespace stavewright::job
