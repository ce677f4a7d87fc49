#pragma once
// The cells of a tally as they are typed, read one by one: a value, or the sentence why not.

#include <optional>
#include <string>
#include <string_view>

#include "core/lumber/Board.h"
#include "core/units/LengthText.h"

namespace stavewright::tally {

/// "8/4", the bare 8, or a measured rough thickness near one ("2 in", "52 mm"; a bare number that
/// is no quarter is read in the job's unit).
Result<Quarter> readRough(std::string_view text, UnitSystem units);
/// The key of a species by its name, its key, or a part of the name that only one has.
Result<std::string> readSpecies(std::string_view text);
/// Above 0 and at most `most`.
Result<Length> readSize(std::string_view text, UnitSystem units, Length most);
/// As readSize; quarters are read as their nominal thickness.
Result<Length> readThinnest(std::string_view text, UnitSystem units);
/// Per board foot; a bare number is per board foot or per cubic metre as the job counts lumber,
/// "per bd ft" or "per m³" behind it says otherwise.
Result<Money> readPrice(std::string_view text, UnitSystem units);
/// In the job's measure of lumber, or with "bd ft" or "m³" behind it.
Result<BoardFeet> readMeasure(std::string_view text, UnitSystem units);
/// Percent, in tenths.
Result<std::int64_t> readMoisture(std::string_view text);

/// `"`, "do", "do.", "ditto": the same as in the row above.
[[nodiscard]] bool isDitto(std::string_view text);

} // namespace stavewright::tally
