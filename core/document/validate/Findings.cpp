#include "core/document/validate/Findings.h"

#include <algorithm>

#include "core/document/Limits.h"
#include "core/units/Glyph.h"
#include "core/units/QuantityText.h"
#include "core/wood/Species.h"

namespace stavewright::validation {

namespace {

/// Millimetres to the last nanometre, without trailing zeros: "0.000001 mm".
std::string exactMillimetres(Length length) {
    const std::int64_t nanometres = abs(length).inNanometres();
    std::string decimals = std::to_string(nanometres % Length::nanometresPerMillimetre);
    decimals.insert(0, 6 - decimals.size(), '0');
    decimals.erase(decimals.find_last_not_of('0') + 1);
    std::string text(length < Length() ? "-" : "");
    text.append(std::to_string(nanometres / Length::nanometresPerMillimetre));
    if (!decimals.empty()) {
        text.append(".").append(decimals);
    }
    return text.append(" mm");
}

std::string sentence(std::string_view what, const std::string& value, const std::string& allowed) {
    return std::string(what) + " is " + value + "; it must be " + allowed + '.';
}

} // namespace

Status Findings::status() const {
    if (m_first) {
        return *m_first;
    }
    return Done{};
}

void Findings::refuse(std::string place, std::string sentence) {
    if (!m_first) {
        m_first = Error{ErrorCode::BadInput, std::move(sentence), std::move(place)};
    }
}

std::string Findings::say(Length length) const {
    constexpr int finest = 64;
    const LengthStyle style{m_units, finest, true};
    if (length == Length()) {
        return "0";
    }
    return m_units == UnitSystem::Inches && !piecesOf(length, style).rounded
               ? formatLength(length, style)
               : exactMillimetres(length);
}

void Findings::length(const std::string& place, std::string_view what, Length value,
                      const Range& range) {
    const bool low = range.leastItself ? value < range.least : value <= range.least;
    const bool high = range.mostItself ? value > range.most : value >= range.most;
    if (!low && !high) {
        return;
    }
    refuse(place,
           sentence(what, say(value),
                    (range.leastItself ? "at least " : "above ") + say(range.least) +
                        (range.mostItself ? " and at most " : " and below ") + say(range.most)));
}

void Findings::number(const std::string& place, std::string_view what, std::int64_t value,
                      std::int64_t least, std::int64_t most) {
    if (value < least || value > most) {
        refuse(place, sentence(what, std::to_string(value),
                               "from " + std::to_string(least) + " to " + std::to_string(most)));
    }
}

void Findings::money(const std::string& place, std::string_view what, Money value) {
    if (value < Money() || value > limits::price) {
        refuse(place, sentence(what, formatMoney(value, ""),
                               "at least 0 and at most " + formatMoney(limits::price, "")));
    }
}

void Findings::text(const std::string& place, std::string_view what, std::string_view value,
                    std::size_t mostCharacters, Lines lines) {
    constexpr char32_t notText = U'\uFFFD';
    const auto characters = reading::decodeUtf8(value);
    if (characters.size() > mostCharacters) {
        refuse(place, std::string(what) + " has " + std::to_string(characters.size()) +
                          " characters; at most " + std::to_string(mostCharacters) +
                          " are allowed.");
    }
    const auto bad = std::find_if(characters.begin(), characters.end(), [&](char32_t c) {
        const bool lineEnd = c == U'\n' || c == U'\r' || c == U'\t';
        const bool control = c < 0x20 || (c >= 0x7F && c < 0xA0);
        return c == notText || (control && !(lineEnd && lines == Lines::Many));
    });
    if (bad != characters.end()) {
        refuse(place, std::string(what) + " holds a character that is not text (number " +
                          std::to_string(static_cast<std::uint32_t>(*bad)) + ").");
    }
}

void Findings::mark(const std::string& place, std::string_view what, std::string_view value) {
    if (value.empty()) {
        refuse(place, std::string(what) + " is empty; it must be a short text.");
        return;
    }
    text(place, what, value, limits::markCharacters);
    const auto characters = reading::decodeUtf8(value);
    if (reading::isBlank(characters.front()) || reading::isBlank(characters.back())) {
        refuse(place, std::string(what) + " is " + reading::inQuotes(value) +
                          "; it must not begin or end with a blank.");
    }
}

void Findings::count(const std::string& place, std::string_view what, std::size_t value,
                     std::size_t most) {
    if (value > most) {
        refuse(place, "There are " + std::to_string(value) + ' ' + std::string(what) +
                          "; at most " + std::to_string(most) + " are allowed.");
    }
}

void Findings::species(const std::string& place, std::string_view whose, std::string_view key) {
    if (findSpecies(key)) {
        return;
    }
    std::string known;
    for (const Species& one : allSpecies()) {
        known.append(known.empty() ? "" : ", ").append(one.key);
    }
    refuse(place, "The species of " + std::string(whose) + " is " + reading::inQuotes(key) +
                      "; it must be one of " + known + '.');
}

std::optional<std::string> Seen::before(const std::string& mark, const std::string& place) {
    const auto [found, isNew] = m_places.emplace(mark, place);
    if (isNew) {
        return std::nullopt;
    }
    return found->second;
}

} // namespace stavewright::validation
