#include "core/units/LengthGrammar.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "core/units/Glyph.h"

namespace stavewright::reading {

namespace {

Error reason(std::string message) { return {ErrorCode::BadInput, std::move(message), {}}; }
Error tooLarge() { return reason("it is too large or too finely divided to work out exactly"); }

/// What a partial result is. A bare number may still become a length in the field's unit; the ratio
/// of two lengths may not.
enum class Dimension { Number, Ratio, Length };

struct Value {
    Rational amount; ///< of a Length in nanometres
    Dimension dimension = Dimension::Number;
};

struct MixedNumber {
    Rational amount;
    bool isInteger = false;
    std::size_t wholeDigits = 0;
};

bool isNumeric(const Token& token) {
    return token.kind == TokenKind::Number || token.kind == TokenKind::Vulgar;
}
bool isOperator(TokenKind kind) {
    return kind == TokenKind::Plus || kind == TokenKind::Minus || kind == TokenKind::Times ||
           kind == TokenKind::Divide;
}

class Parser {
  public:
    Parser(const LengthTokens& input, UnitSystem unit)
        : m_tokens(input.tokens)
        , m_formula(input.formula || hasSpacedOperator())
        , m_unit(unit == UnitSystem::Inches ? LengthUnit::Inch : LengthUnit::Millimetre) {}

    Result<Rational> run() {
        if (here().kind == TokenKind::End) {
            return reason("there is no number in it");
        }
        const Result<Value> value = m_formula ? sum() : signedOperand();
        if (!value) {
            return value.error();
        }
        if (here().kind != TokenKind::End) {
            return leftOver();
        }
        return asLength(value.value());
    }

  private:
    [[nodiscard]] const Token& ahead(std::size_t steps) const {
        return m_tokens[std::min(m_at + steps, m_tokens.size() - 1)];
    }
    [[nodiscard]] const Token& here() const { return ahead(0); }
    [[nodiscard]] bool blankAfter(std::size_t steps) const { return ahead(steps + 1).blankBefore; }
    [[nodiscard]] bool hasSpacedOperator() const {
        for (std::size_t i = 1; i + 1 < m_tokens.size(); ++i) {
            if (isOperator(m_tokens[i].kind) && m_tokens[i].blankBefore &&
                m_tokens[i + 1].blankBefore) {
                return true;
            }
        }
        return false;
    }

    [[nodiscard]] Error leftOver() const {
        const Token& token = here();
        if (token.kind == TokenKind::Close) {
            return reason("a “)” has no “(” before it");
        }
        if (token.kind == TokenKind::Unit) {
            return reason("the unit " + inQuotes(token.text) + " does not stand behind a number");
        }
        if (token.kind == TokenKind::Open) {
            return reason("an operator is missing before “(”");
        }
        if (isNumeric(token)) {
            return reason("two numbers stand side by side without an operator");
        }
        return reason("begin with “=” or put blanks on both sides of " + inQuotes(token.text) +
                      " to have it worked out");
    }

    Result<Rational> asLength(const Value& value) const {
        if (value.dimension == Dimension::Ratio) {
            return reason("a length divided by a length is a number, not a length");
        }
        if (value.dimension == Dimension::Length) {
            return value.amount;
        }
        const auto amount = multiply(value.amount, Rational::whole(nanometresIn(m_unit)));
        return amount ? Result<Rational>(*amount) : tooLarge();
    }

    // --- arithmetic -----------------------------------------------------------------------------

    Result<Value> sum() {
        Result<Value> left = product();
        while (left && (here().kind == TokenKind::Plus || here().kind == TokenKind::Minus)) {
            const bool minus = here().kind == TokenKind::Minus;
            ++m_at;
            Result<Value> right = product();
            if (!right) {
                return right;
            }
            if (minus) {
                right.value().amount = negated(right.value().amount);
            }
            left = added(left.value(), right.value());
        }
        return left;
    }

    Result<Value> added(const Value& a, const Value& b) const {
        const bool length = a.dimension == Dimension::Length || b.dimension == Dimension::Length;
        if (!length) {
            const auto amount = add(a.amount, b.amount);
            return amount ? Result<Value>(Value{*amount, std::max(a.dimension, b.dimension)})
                          : tooLarge();
        }
        const Result<Rational> left = asLength(a);
        const Result<Rational> right = asLength(b);
        if (!left || !right) {
            return reason("a length and the ratio of two lengths cannot be added");
        }
        const auto amount = add(left.value(), right.value());
        return amount ? Result<Value>(Value{*amount, Dimension::Length}) : tooLarge();
    }

    Result<Value> product() {
        Result<Value> left = signedOperand();
        while (left && (here().kind == TokenKind::Times || here().kind == TokenKind::Divide)) {
            const bool divides = here().kind == TokenKind::Divide;
            // In 1/2/4/8 the marks are worked off from the left: 4/8 is no fraction there.
            m_noFraction = divides && !here().blankBefore && !blankAfter(0);
            ++m_at;
            Result<Value> right = signedOperand();
            if (!right) {
                return right;
            }
            left = divides ? divided(left.value(), right.value())
                           : multiplied(left.value(), right.value());
        }
        return left;
    }

    static Result<Value> multiplied(const Value& a, const Value& b) {
        if (a.dimension == Dimension::Length && b.dimension == Dimension::Length) {
            return reason("a length times a length is an area, not a length");
        }
        const auto amount = multiply(a.amount, b.amount);
        return amount ? Result<Value>(Value{*amount, std::max(a.dimension, b.dimension)})
                      : tooLarge();
    }

    static Result<Value> divided(const Value& a, const Value& b) {
        if (b.amount.isZero()) {
            return reason("it divides by zero");
        }
        Dimension dimension = std::max(a.dimension, b.dimension);
        if (b.dimension == Dimension::Length) {
            if (a.dimension != Dimension::Length) {
                return reason("a number without a unit cannot be divided by a length");
            }
            dimension = Dimension::Ratio;
        }
        const auto amount = divide(a.amount, b.amount);
        return amount ? Result<Value>(Value{*amount, dimension}) : tooLarge();
    }

    Result<Value> signedOperand() {
        const bool minus = here().kind == TokenKind::Minus;
        if (minus || here().kind == TokenKind::Plus) {
            ++m_at;
        }
        Result<Value> value = operand();
        if (value && minus) {
            value.value().amount = negated(value.value().amount);
        }
        return value;
    }

    Result<Value> operand() {
        if (isNumeric(here())) {
            return quantity();
        }
        if (here().kind == TokenKind::Open && m_formula) {
            ++m_at;
            m_noFraction = false;
            Result<Value> value = sum();
            if (value && here().kind != TokenKind::Close) {
                return here().kind == TokenKind::End ? reason("a “)” is missing") : leftOver();
            }
            ++m_at;
            return value;
        }
        if (here().kind == TokenKind::Open) {
            return reason("begin with “=” to have parentheses worked out");
        }
        if (here().kind == TokenKind::End) {
            return reason("a number is missing at its end");
        }
        return reason("a number is missing before " + inQuotes(here().text));
    }

    // --- one quantity ---------------------------------------------------------------------------

    Result<Value> quantity() {
        const Result<MixedNumber> number = mixedNumber();
        if (!number) {
            return number.error();
        }
        if (here().kind != TokenKind::Unit) {
            if (isNumeric(here())) {
                return reason("two numbers stand side by side without an operator");
            }
            return Value{number.value().amount, Dimension::Number};
        }
        const LengthUnit unit = here().unit;
        ++m_at;
        if (unit == LengthUnit::Foot) {
            return feet(number.value());
        }
        if (isNumeric(here())) {
            return reason("a number follows the unit of another one without an operator");
        }
        return inUnit(number.value().amount, unit);
    }

    static Result<Value> inUnit(const Rational& amount, LengthUnit unit) {
        const auto nanometres = multiply(amount, Rational::whole(nanometresIn(unit)));
        return nanometres ? Result<Value>(Value{*nanometres, Dimension::Length}) : tooLarge();
    }

    /// Behind the foot mark: feet alone, or feet and inches in one of the ways of the trade:
    /// 2' 3 1/2", 2'3", 2ft3.5in, 2'-3 1/2".
    Result<Value> feet(const MixedNumber& whole) {
        const bool tightHyphen = here().kind == TokenKind::Minus && !here().blankBefore &&
                                 !blankAfter(0) && isNumeric(ahead(1));
        if (tightHyphen && m_formula) {
            return reason(
                "“-” behind feet may join inches or subtract; leave it out to join, or put "
                "blanks on both sides to subtract");
        }
        Result<Value> length = inUnit(whole.amount, LengthUnit::Foot);
        if (!length || !(isNumeric(here()) || tightHyphen)) {
            return length;
        }
        if (!whole.isInteger) {
            return reason("feet before inches must be a whole number");
        }
        m_at += tightHyphen ? 1 : 0;
        const Result<MixedNumber> inches = mixedNumber();
        if (!inches) {
            return inches.error();
        }
        if (here().kind == TokenKind::Unit) {
            if (here().unit != LengthUnit::Inch) {
                return reason("only inches may follow feet");
            }
            ++m_at;
        }
        if (isNumeric(here())) {
            return reason("two numbers stand side by side without an operator");
        }
        // Also catches the apostrophe as a thousands mark: 1'000.
        const auto whole12 = divide(inches.value().amount, Rational::whole(12));
        const bool atLeastAFoot = whole12 && whole12->numerator >= whole12->denominator;
        if (!whole12 || atLeastAFoot || inches.value().wholeDigits > 2) {
            return reason("the inches behind feet must be less than 12");
        }
        const auto inchPart = inUnit(inches.value().amount, LengthUnit::Inch);
        const auto total = add(length.value().amount, inchPart.value().amount);
        return total ? Result<Value>(Value{*total, Dimension::Length}) : tooLarge();
    }

    /// A fraction "n/d" without blanks, or one vulgar character, `steps` ahead.
    struct Fraction {
        Rational amount;
        bool proper = false;
        std::size_t tokens = 0;
        std::string text;
    };
    [[nodiscard]] std::optional<Result<Fraction>> fractionAt(std::size_t steps) const {
        const Token& first = ahead(steps);
        if (first.kind == TokenKind::Vulgar) {
            return Fraction{first.fraction, true, 1, first.text};
        }
        const Token& last = ahead(steps + 2);
        if (!first.isInteger() || ahead(steps + 1).kind != TokenKind::Divide || !last.isInteger() ||
            ahead(steps + 1).blankBefore || last.blankBefore) {
            return std::nullopt;
        }
        std::string text = first.text + "/" + last.text;
        const auto amount = divide(first.number.value, last.number.value);
        if (!amount) {
            return reason("the fraction " + inQuotes(text) + " has a zero below the line");
        }
        const bool proper = amount->numerator > 0 && amount->numerator < amount->denominator;
        return Fraction{*amount, proper, 3, std::move(text)};
    }

    Result<MixedNumber> mixedNumber() {
        const bool alone = std::exchange(m_noFraction, false) && here().kind == TokenKind::Number;
        if (const auto fraction = alone ? std::nullopt : fractionAt(0)) {
            if (!*fraction) {
                return fraction->error();
            }
            m_at += fraction->value().tokens;
            return MixedNumber{fraction->value().amount, false, 0};
        }
        const Token& whole = here();
        ++m_at;
        MixedNumber number{whole.number.value, whole.isInteger(), whole.number.wholeDigits};
        if (!whole.isInteger()) {
            return number;
        }
        const bool hyphen = here().kind == TokenKind::Minus;
        const auto fraction = fractionAt(hyphen ? 1 : 0);
        if (!fraction || (hyphen && here().blankBefore && blankAfter(0))) {
            return number; // nothing to join, or a minus with blanks on both sides
        }
        if (!*fraction) {
            return fraction->error();
        }
        const Fraction& part = fraction->value();
        if (hyphen && (here().blankBefore || blankAfter(0) || !part.proper)) {
            return bothReadings(whole.text, part);
        }
        if (!part.proper) {
            return reason("the fraction " + inQuotes(part.text) +
                          " behind a whole number must be between 0 and 1");
        }
        const auto total = add(number.amount, part.amount);
        if (!total) {
            return tooLarge();
        }
        m_at += part.tokens + (hyphen ? 1 : 0);
        return MixedNumber{*total, false, number.wholeDigits};
    }

    static Error bothReadings(const std::string& whole, const Fraction& part) {
        const std::string difference = "“" + whole + " - " + part.text + "” to subtract";
        if (!part.proper) {
            return reason("the hyphen is not clear; write " + difference);
        }
        return reason("it may mean two things; write “" + whole + " " + part.text +
                      "” for one number or " + difference);
    }

    const std::vector<Token>& m_tokens;
    bool m_formula;
    LengthUnit m_unit;
    std::size_t m_at = 0;
    bool m_noFraction = false; ///< the next number stands behind a tight division mark
};

} // namespace

Result<Rational> readLengthTokens(const LengthTokens& tokens, UnitSystem unit) {
    return Parser(tokens, unit).run();
}

} // namespace stavewright::reading
