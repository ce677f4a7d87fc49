#include "core/units/LengthLexer.h"

#include <array>
#include <optional>
#include <utility>

#include "core/units/Glyph.h"

namespace stavewright::reading {

namespace {

struct VulgarFraction {
    char32_t character;
    int numerator;
    int denominator;
};
// The vulgar fractions of Unicode 15 (Latin-1 Supplement and Number Forms) that a rule can show.
constexpr std::array<VulgarFraction, 15> vulgarFractions = {{{U'½', 1, 2},
                                                             {U'¼', 1, 4},
                                                             {U'¾', 3, 4},
                                                             {U'⅛', 1, 8},
                                                             {U'⅜', 3, 8},
                                                             {U'⅝', 5, 8},
                                                             {U'⅞', 7, 8},
                                                             {U'⅓', 1, 3},
                                                             {U'⅔', 2, 3},
                                                             {U'⅕', 1, 5},
                                                             {U'⅖', 2, 5},
                                                             {U'⅗', 3, 5},
                                                             {U'⅘', 4, 5},
                                                             {U'⅙', 1, 6},
                                                             {U'⅚', 5, 6}}};

struct UnitWord {
    std::string_view word;
    LengthUnit unit;
};
constexpr std::array<UnitWord, 9> unitWords = {{{"in", LengthUnit::Inch},
                                                {"inch", LengthUnit::Inch},
                                                {"inches", LengthUnit::Inch},
                                                {"ft", LengthUnit::Foot},
                                                {"foot", LengthUnit::Foot},
                                                {"feet", LengthUnit::Foot},
                                                {"mm", LengthUnit::Millimetre},
                                                {"cm", LengthUnit::Centimetre},
                                                {"m", LengthUnit::Metre}}};

Error reason(std::string message) { return {ErrorCode::BadInput, std::move(message), {}}; }

bool isLetter(char32_t character) {
    return (character >= U'a' && character <= U'z') || (character >= U'A' && character <= U'Z');
}
bool isFootMark(char32_t character) {
    return character == U'\'' || character == U'′' || character == U'’';
}
bool isInchMark(char32_t character) {
    return character == U'"' || character == U'″' || character == U'”';
}

std::optional<TokenKind> signOf(char32_t character) {
    if (isMinus(character)) {
        return TokenKind::Minus;
    }
    switch (character) {
    case U'+':
        return TokenKind::Plus;
    case U'*':
    case U'×':
        return TokenKind::Times;
    case U'/':
    case U'⁄': // fraction slash
    case U'÷':
        return TokenKind::Divide;
    case U'(':
        return TokenKind::Open;
    case U')':
        return TokenKind::Close;
    default:
        return std::nullopt;
    }
}

class Lexer {
  public:
    explicit Lexer(std::string_view text)
        : m_characters(decodeUtf8(text)) {}

    Result<LengthTokens> run() {
        LengthTokens result;
        skipBlanks();
        // What the program shows for a rounded value is read back.
        if (m_at < m_characters.size() && m_characters[m_at] == U'≈') {
            ++m_at;
            skipBlanks();
        }
        if (m_at < m_characters.size() && m_characters[m_at] == U'=') {
            result.formula = true;
            ++m_at;
        }
        while (true) {
            const bool blank = skipBlanks();
            Result<Token> token = next();
            if (!token) {
                return token.error();
            }
            token.value().blankBefore = blank;
            const bool end = token.value().kind == TokenKind::End;
            result.tokens.push_back(std::move(token).value());
            if (end) {
                return result;
            }
        }
    }

  private:
    bool skipBlanks() {
        const std::size_t from = m_at;
        while (m_at < m_characters.size() && isBlank(m_characters[m_at])) {
            ++m_at;
        }
        return m_at > from;
    }

    Result<Token> next() {
        if (m_at == m_characters.size()) {
            return Token{};
        }
        if (decimalBeginsAt(m_characters, m_at)) {
            return number();
        }
        const char32_t character = m_characters[m_at];
        if (isLetter(character)) {
            return unitWord();
        }
        Token token;
        appendUtf8(token.text, character);
        ++m_at;
        for (const VulgarFraction& vulgar : vulgarFractions) {
            if (vulgar.character == character) {
                token.kind = TokenKind::Vulgar;
                token.fraction =
                    Rational::of(vulgar.numerator, vulgar.denominator).value_or(Rational());
                return token;
            }
        }
        if (const auto sign = signOf(character)) {
            token.kind = *sign;
            return token;
        }
        if (isFootMark(character) || isInchMark(character)) {
            token.kind = TokenKind::Unit;
            // Two single marks are typed for one inch mark.
            const bool doubled = isFootMark(character) && m_at < m_characters.size() &&
                                 m_characters[m_at] == character;
            m_at += doubled ? 1 : 0;
            token.unit = isInchMark(character) || doubled ? LengthUnit::Inch : LengthUnit::Foot;
            return token;
        }
        return reason(inQuotes(token.text) + " is not part of a length");
    }

    Result<Token> number() {
        Result<Decimal> decimal = readDecimal(m_characters, m_at);
        if (!decimal) {
            return decimal.error();
        }
        Token token;
        token.kind = TokenKind::Number;
        token.text = decimal.value().text;
        token.number = std::move(decimal).value();
        const char32_t separator = token.number.separator;
        if (separator != 0 && m_separator != 0 && separator != m_separator) {
            return reason("it holds both “.” and “,”; use one decimal sign and no thousands marks");
        }
        m_separator = separator != 0 ? separator : m_separator;
        return token;
    }

    Result<Token> unitWord() {
        Token token;
        token.kind = TokenKind::Unit;
        std::string lower;
        for (; m_at < m_characters.size() && isLetter(m_characters[m_at]); ++m_at) {
            const char32_t character = m_characters[m_at];
            appendUtf8(token.text, character);
            appendUtf8(lower, character < U'a' ? character - U'A' + U'a' : character);
        }
        // "in." with the stop of an abbreviation
        if (m_at < m_characters.size() && m_characters[m_at] == U'.' &&
            !decimalBeginsAt(m_characters, m_at)) {
            ++m_at;
        }
        for (const UnitWord& known : unitWords) {
            if (known.word == lower) {
                token.unit = known.unit;
                return token;
            }
        }
        return reason(inQuotes(token.text) + " is not a unit; the units are in, ft, mm, cm and m");
    }

    std::vector<char32_t> m_characters;
    std::size_t m_at = 0;
    char32_t m_separator = 0; ///< the decimal sign met so far
};

} // namespace

std::int64_t nanometresIn(LengthUnit unit) {
    switch (unit) {
    case LengthUnit::Inch:
        return Length::nanometresPerInch;
    case LengthUnit::Foot:
        return 12 * Length::nanometresPerInch;
    case LengthUnit::Millimetre:
        return Length::nanometresPerMillimetre;
    case LengthUnit::Centimetre:
        return 10 * Length::nanometresPerMillimetre;
    case LengthUnit::Metre:
        return 1000 * Length::nanometresPerMillimetre;
    }
    return Length::nanometresPerMillimetre;
}

Result<LengthTokens> lexLength(std::string_view text) { return Lexer(text).run(); }

} // namespace stavewright::reading
