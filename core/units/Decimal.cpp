#include "core/units/Decimal.h"

#include "core/units/Glyph.h"

namespace stavewright::reading {

namespace {

/// More digits than any measured length has, few enough for exact sums of two such numbers.
constexpr std::size_t mostDigits = 18;

bool isSeparator(char32_t character) { return character == U'.' || character == U','; }

Error reason(std::string message) { return {ErrorCode::BadInput, std::move(message), {}}; }

/// The digits without their comma or point, for the advice in messages.
std::string withoutSeparator(const Decimal& decimal) {
    std::string digits;
    for (const char character : decimal.text) {
        if (character >= '0' && character <= '9') {
            digits.push_back(character);
        }
    }
    return digits;
}

bool maybeThousandsGroup(const Decimal& decimal, std::size_t decimals) {
    return decimal.separator == U',' && decimals == 3 && decimal.wholeDigits >= 1 &&
           decimal.wholeDigits <= 3 && decimal.text.front() != '0';
}

} // namespace

bool decimalBeginsAt(const std::vector<char32_t>& characters, std::size_t at) {
    if (at >= characters.size()) {
        return false;
    }
    return isDigit(characters[at]) || (isSeparator(characters[at]) && at + 1 < characters.size() &&
                                       isDigit(characters[at + 1]));
}

Result<Decimal> readDecimal(const std::vector<char32_t>& characters, std::size_t& at) {
    Decimal decimal;
    Int128 digits = 0;
    Int128 scale = 1;
    std::size_t significant = 0;
    std::size_t decimals = 0;
    for (; at < characters.size(); ++at) {
        const char32_t character = characters[at];
        if (isDigit(character)) {
            if (digits != 0 || character != U'0') {
                ++significant;
            }
            decimals += decimal.separator != 0 ? 1 : 0;
            if (significant > mostDigits || decimals > mostDigits) {
                return reason("a number has more than 18 digits");
            }
            digits = digits * 10 + static_cast<int>(character - U'0');
            scale *= decimal.separator != 0 ? 10 : 1;
            decimal.wholeDigits += decimal.separator == 0 ? 1 : 0;
            decimal.text.push_back(static_cast<char>(character));
        } else if (isSeparator(character)) {
            if (decimal.separator != 0) {
                return reason(
                    character == decimal.separator
                        ? "a number has two decimal signs; write it without thousands marks"
                        : "it holds both “.” and “,”; use one decimal sign and no "
                          "thousands marks");
            }
            decimal.separator = character;
            decimal.text.push_back(static_cast<char>(character));
        } else {
            break;
        }
    }
    if (decimal.separator != 0 && decimals == 0) {
        return reason("a digit is missing behind the decimal sign of " + inQuotes(decimal.text));
    }
    if (maybeThousandsGroup(decimal, decimals)) {
        std::string withPoint = decimal.text;
        withPoint[decimal.wholeDigits] = '.';
        return reason(inQuotes(decimal.text) + " may be a thousands group; write " +
                      withoutSeparator(decimal) + " or " + withPoint);
    }
    decimal.value = Rational::of(digits, scale).value_or(Rational());
    return decimal;
}

} // namespace stavewright::reading
