#include "core/units/QuantityText.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>
#include <vector>

#include "core/units/Decimal.h"
#include "core/units/Glyph.h"

namespace stavewright {

namespace {

constexpr std::int64_t millionthsPerBoardFoot = 1'000'000;
constexpr std::int64_t tenThousandthsPerUnit = 10'000;
/// More than any shop buys, and prices times amounts still fit.
constexpr std::int64_t mostBoardFeet = 1'000'000;
/// A cubic metre in cubic micrometres, and a millionth of a board foot: 144 x 25 400^3 / 10^6.
constexpr std::int64_t cubicMetre = 1'000'000'000'000'000'000;
constexpr std::int64_t cubicMicrometresPerMillionth = 2'359'737'216;
constexpr std::int64_t mostMoney = 1'000'000'000;

Int128 magnitude(std::int64_t value) { return value < 0 ? -static_cast<Int128>(value) : value; }

/// To the nearest whole, halves away from zero.
constexpr Int128 rounded(Int128 dividend, Int128 divisor) {
    const Int128 half = dividend < 0 ? -divisor / 2 : divisor / 2;
    return (dividend + half) / divisor;
}

/// `value` in units of 1/scale as a decimal with `decimals` digits, halves away from zero, without
/// sign.
struct Shown {
    std::string text;
    bool isZero = true;
};
Shown decimalText(Int128 size, std::int64_t scale, int decimals) {
    std::int64_t shownScale = 1;
    for (int i = 0; i < decimals; ++i) {
        shownScale *= 10;
    }
    const std::int64_t perTick = scale / shownScale;
    const auto ticks = static_cast<std::int64_t>((size + perTick / 2) / perTick);
    std::string text = std::to_string(ticks / shownScale);
    if (decimals > 0) {
        std::string digits = std::to_string(ticks % shownScale);
        digits.insert(0, static_cast<std::size_t>(decimals) - digits.size(), '0');
        text.append(1, '.').append(digits);
    }
    return {std::move(text), ticks == 0};
}

std::string_view signText(bool negative) { return negative ? "-" : ""; }

Error cannotRead(std::string_view text, std::string_view what, const std::string& reason) {
    return {ErrorCode::BadInput,
            "Cannot read " + reading::inQuotes(text) + " as " + std::string(what) + ": " + reason +
                ".",
            {}};
}

/// Characters of a typed amount, consumed from both ends.
class AmountReader {
  public:
    explicit AmountReader(std::string_view text)
        : m_characters(reading::decodeUtf8(text)) {}

    void skipBlanks() {
        while (m_at < m_characters.size() && reading::isBlank(m_characters[m_at])) {
            ++m_at;
        }
    }
    bool takeMinus() {
        const bool minus = m_at < m_characters.size() && reading::isMinus(m_characters[m_at]);
        m_at += minus ? 1 : 0;
        return minus;
    }
    bool takeCurrency() {
        std::string word;
        std::size_t end = m_at;
        while (end < m_characters.size() && !reading::isBlank(m_characters[end]) &&
               !reading::isDigit(m_characters[end]) && !reading::isMinus(m_characters[end]) &&
               m_characters[end] != U'.' && m_characters[end] != U',') {
            reading::appendUtf8(word, m_characters[end]);
            ++end;
        }
        if (!isCurrency(word, m_characters, m_at, end)) {
            return false;
        }
        m_at = end;
        return true;
    }
    [[nodiscard]] bool atNumber() const { return reading::decimalBeginsAt(m_characters, m_at); }
    Result<reading::Decimal> number() { return reading::readDecimal(m_characters, m_at); }
    [[nodiscard]] bool atEnd() const { return m_at == m_characters.size(); }

  private:
    /// One currency symbol (also behind letters, "US$"), a code of three capitals, or a short form
    /// in common use. Anything else ("nan", "1e5") is not taken for money.
    static bool isCurrency(std::string_view word, const std::vector<char32_t>& characters,
                           std::size_t from, std::size_t to) {
        constexpr std::array<std::string_view, 6> shortForms = {"kr", "zł",  "Kč",
                                                                "Ft", "lei", "Fr"};
        if (std::find(shortForms.begin(), shortForms.end(), word) != shortForms.end()) {
            return true;
        }
        const auto isCapital = [](char32_t c) { return c >= U'A' && c <= U'Z'; };
        const auto isSymbol = [](char32_t c) {
            return c == U'$' || (c >= U'\u00A2' && c <= U'\u00A5') ||
                   (c >= U'\u20A0' && c <= U'\u20CF');
        };
        const std::size_t size = to - from;
        if (size == 0 || size > 3) {
            return false;
        }
        const auto first = characters.begin() + static_cast<std::ptrdiff_t>(from);
        const auto last = characters.begin() + static_cast<std::ptrdiff_t>(to) - 1;
        return std::all_of(first, last, isCapital) &&
               (isSymbol(*last) || (size == 3 && isCapital(*last)));
    }

    std::vector<char32_t> m_characters;
    std::size_t m_at = 0;
};

/// Reads `[-] number`, with a currency sign before or after it if allowed, in units of 1/scale.
Result<std::int64_t> parseAmount(std::string_view text, std::string_view what, bool currencyAllowed,
                                 std::int64_t scale, std::int64_t most) {
    constexpr std::size_t longestText = 60;
    if (text.size() > longestText) {
        return cannotRead(text, what, "it is longer than 60 characters");
    }
    AmountReader reader(text);
    reader.skipBlanks();
    bool minus = reader.takeMinus();
    reader.skipBlanks();
    const bool currencyFirst = currencyAllowed && reader.takeCurrency();
    reader.skipBlanks();
    minus = (!minus && currencyFirst && reader.takeMinus()) || minus;
    if (!reader.atNumber()) {
        return cannotRead(text, what, "a plain number like 8.50 is expected");
    }
    const Result<reading::Decimal> number = reader.number();
    if (!number) {
        return cannotRead(text, what, number.error().message);
    }
    reader.skipBlanks();
    if (currencyAllowed && !currencyFirst) {
        reader.takeCurrency();
        reader.skipBlanks();
    }
    if (!reader.atEnd()) {
        return cannotRead(text, what, "a plain number like 8.50 is expected");
    }
    const auto scaled = reading::multiply(number.value().value, reading::Rational::whole(scale));
    const auto amount = scaled ? reading::nearestWhole(*scaled) : std::nullopt;
    if (!amount || *amount > most * scale) {
        return cannotRead(text, what, "the largest amount allowed is " + std::to_string(most));
    }
    return minus ? -*amount : *amount;
}

} // namespace

std::string formatBoardFeet(BoardFeet amount, int decimals) {
    const Shown shown = decimalText(magnitude(amount.inMillionths()), millionthsPerBoardFoot,
                                    std::clamp(decimals, 0, 3));
    std::string text(signText(amount < BoardFeet() && !shown.isZero));
    return text.append(shown.text);
}

std::string lumberUnit(UnitSystem units) { return units == UnitSystem::Inches ? "bd ft" : "m³"; }

std::string formatLumber(BoardFeet amount, UnitSystem units, LumberDetail detail) {
    if (units == UnitSystem::Inches) {
        return formatBoardFeet(amount, detail == LumberDetail::Glance ? 1 : 2);
    }
    const Shown shown =
        decimalText(magnitude(amount.inMillionths()) * cubicMicrometresPerMillionth, cubicMetre, 4);
    std::string text(signText(amount < BoardFeet() && !shown.isZero));
    return text.append(shown.text);
}

std::string lumberText(BoardFeet amount, UnitSystem units, LumberDetail detail) {
    return formatLumber(amount, units, detail) + " " + lumberUnit(units);
}

BoardFeet asShown(BoardFeet amount, UnitSystem units) {
    // Counted in the steps that are shown, then back to the nearest millionth of a board foot.
    const Int128 step = units == UnitSystem::Inches ? 10'000 : cubicMetre / 10'000;
    const Int128 perMillionth = units == UnitSystem::Inches ? 1 : cubicMicrometresPerMillionth;
    const Int128 steps = rounded(amount.inMillionths() * perMillionth, step);
    return BoardFeet::millionths(static_cast<std::int64_t>(rounded(steps * step, perMillionth)));
}

Money pricePerLumberUnit(Money perBoardFoot, UnitSystem units) {
    if (units == UnitSystem::Inches) {
        return perBoardFoot;
    }
    constexpr std::int64_t tenth = 1'000; // in ten-thousandths
    const Int128 tenths =
        rounded(static_cast<Int128>(perBoardFoot.inTenThousandths()) * cubicMetre,
                static_cast<Int128>(cubicMicrometresPerMillionth) * 1'000'000 * tenth);
    return Money::tenThousandths(static_cast<std::int64_t>(tenths * tenth));
}

Money pricePerBoardFoot(Money perLumberUnit, UnitSystem units) {
    if (units == UnitSystem::Inches) {
        return perLumberUnit;
    }
    return Money::tenThousandths(
        static_cast<std::int64_t>(rounded(static_cast<Int128>(perLumberUnit.inTenThousandths()) *
                                              cubicMicrometresPerMillionth * 1'000'000,
                                          cubicMetre)));
}

std::string formatMoney(Money amount, std::string_view currency) {
    const Shown shown = decimalText(magnitude(amount.inTenThousandths()), tenThousandthsPerUnit, 2);
    std::string text(signText(amount < Money() && !shown.isZero));
    return text.append(currency).append(shown.text);
}

std::string formatExcess(Money amount, Money least) {
    if (least <= Money()) {
        return "–";
    }
    const Int128 base = least.inTenThousandths();
    const Int128 over = std::max<Int128>(0, Int128{amount.inTenThousandths()} - base);
    const Int128 tenths = (over * 1000 + base - 1) / base;
    return decimalText(tenths, 10, 1).text.append(" %");
}

std::string formatShare(BoardFeet part, BoardFeet whole) {
    if (whole <= BoardFeet()) {
        return "–";
    }
    // A share is part x 1000 / whole in tenths of a percent, which is a decimal of scale 10.
    const Int128 base = whole.inMillionths();
    const Int128 tenths = (magnitude(part.inMillionths()) * 2000 + base) / (base * 2);
    const Shown shown = decimalText(tenths, 10, 1);
    std::string text(signText(part < BoardFeet() && !shown.isZero));
    return text.append(shown.text).append(" %");
}

Result<Money> parseMoney(std::string_view text) {
    const auto amount =
        parseAmount(text, "an amount of money", true, tenThousandthsPerUnit, mostMoney);
    if (!amount) {
        return amount.error();
    }
    return Money::tenThousandths(amount.value());
}

Result<BoardFeet> parseBoardFeet(std::string_view text) {
    const auto amount =
        parseAmount(text, "board feet", false, millionthsPerBoardFoot, mostBoardFeet);
    if (!amount) {
        return amount.error();
    }
    if (amount.value() < 0) {
        return cannotRead(text, "board feet", "it must be zero or more");
    }
    return BoardFeet::millionths(amount.value());
}

} // namespace stavewright
