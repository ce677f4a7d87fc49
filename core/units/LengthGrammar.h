#pragma once
// The grammar of typed lengths over the lexer's tokens, exact in fractions of nanometres.
//
//   sum      = product { ("+" | "-") product }
//   product  = signed { ("*" | "/") signed }
//   signed   = [ "+" | "-" ] operand
//   operand  = "(" sum ")" | quantity
//   quantity = number [ unit ]  |  whole feet [ number [ inch unit ] ]
//   number   = decimal | fraction | whole fraction | whole tight "-" fraction
//
// Sums are read after "=" or when an operator stands with blanks on both sides; otherwise only one
// signed quantity is. A bare number is a length in the field's unit, or a plain factor beside * and
// /.

#include "core/units/LengthLexer.h"
#include "core/units/LengthText.h"

namespace stavewright::reading {

/// In nanometres, not yet rounded. The error's message is the reason only.
Result<Rational> readLengthTokens(const LengthTokens& tokens, UnitSystem unit);

} // namespace stavewright::reading
