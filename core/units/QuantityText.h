#pragma once
// Board feet, money and shares as shown and typed. Free of the process's locale.

#include <string>
#include <string_view>

#include "core/base/Result.h"
#include "core/units/LengthText.h"
#include "core/units/Measure.h"

namespace stavewright {

/// "10.67"; `decimals` from 0 to 3, rounded half away from zero.
[[nodiscard]] std::string formatBoardFeet(BoardFeet amount, int decimals = 2);

/// How closely lumber is shown: at a glance, or where boards are compared and added up.
enum class LumberDetail { Glance, Close };
/// What lumber is counted in: "bd ft" in a job in inches, "m³" in one in millimetres.
[[nodiscard]] std::string lumberUnit(UnitSystem units);
/// The number alone: board feet to 1 or 2 decimals, cubic metres to 4 (a tenth of a litre).
[[nodiscard]] std::string formatLumber(BoardFeet amount, UnitSystem units,
                                       LumberDetail detail = LumberDetail::Close);
/// "10.67 bd ft", "0.0252 m³"
[[nodiscard]] std::string lumberText(BoardFeet amount, UnitSystem units,
                                     LumberDetail detail = LumberDetail::Close);
/// The amount that formatLumber() shows closely, so that figures derived from it add up as printed.
[[nodiscard]] BoardFeet asShown(BoardFeet amount, UnitSystem units);

/// What one lumberUnit() costs, and back. A job holds prices per board foot, in ten-thousandths;
/// per cubic metre they are shown to the tenth, within which a typed price comes back as typed.
[[nodiscard]] Money pricePerLumberUnit(Money perBoardFoot, UnitSystem units);
[[nodiscard]] Money pricePerBoardFoot(Money perLumberUnit, UnitSystem units);

/// "$8.50": the currency sign, then two decimals; "-$3.00" below zero.
[[nodiscard]] std::string formatMoney(Money amount, std::string_view currency);
/// How far `amount` lies above `least` in tenths of a percent of `least`, rounded up; "–" when the
/// least is nothing.
[[nodiscard]] std::string formatExcess(Money amount, Money least);
/// Share of part in whole in tenths of a percent: "61.3 %"; "–" when the whole is nothing.
[[nodiscard]] std::string formatShare(BoardFeet part, BoardFeet whole);

/// A plain decimal with '.' or ',' and an optional currency sign before or after it.
Result<Money> parseMoney(std::string_view text);
Result<BoardFeet> parseBoardFeet(std::string_view text);

} // namespace stavewright
