#pragma once
// Board feet, money and shares as shown and typed. Free of the process's locale.

#include <string>
#include <string_view>

#include "core/base/Result.h"
#include "core/units/Measure.h"

namespace stavewright {

/// "10.67"; `decimals` from 0 to 3, rounded half away from zero.
[[nodiscard]] std::string formatBoardFeet(BoardFeet amount, int decimals = 2);
/// "$8.50": the currency sign, then two decimals; "-$3.00" below zero.
[[nodiscard]] std::string formatMoney(Money amount, std::string_view currency);
/// Share of part in whole in tenths of a percent: "61.3 %"; "–" when the whole is nothing.
[[nodiscard]] std::string formatShare(BoardFeet part, BoardFeet whole);

/// A plain decimal with '.' or ',' and an optional currency sign before or after it.
Result<Money> parseMoney(std::string_view text);
Result<BoardFeet> parseBoardFeet(std::string_view text);

} // namespace stavewright
