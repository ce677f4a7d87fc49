#pragma once
// Cuts a typed length into numbers, units and signs. Knows characters, not grammar.

#include <string_view>
#include <vector>

#include "core/base/Result.h"
#include "core/units/Decimal.h"

namespace stavewright::reading {

enum class LengthUnit { Inch, Foot, Millimetre, Centimetre, Metre };
[[nodiscard]] std::int64_t nanometresIn(LengthUnit unit);

enum class TokenKind {
    Number,
    Vulgar, ///< a fraction in one character, e.g. ½
    Unit,
    Plus,
    Minus,
    Times,
    Divide,
    Open,
    Close,
    End
};

struct Token {
    TokenKind kind = TokenKind::End;
    bool blankBefore = false;
    Decimal number;                     ///< of a Number
    Rational fraction;                  ///< of a Vulgar
    LengthUnit unit = LengthUnit::Inch; ///< of a Unit
    std::string text;                   ///< as typed

    [[nodiscard]] bool isInteger() const {
        return kind == TokenKind::Number && number.separator == 0;
    }
};

struct LengthTokens {
    bool formula = false;      ///< began with '='
    std::vector<Token> tokens; ///< always ends with End
};

/// The error's message is the reason only, to be put behind "Cannot read ...: ".
Result<LengthTokens> lexLength(std::string_view text);

} // namespace stavewright::reading
