#include "core/tally/TallyBoards.h"

#include "core/lumber/BoardShape.h"
#include "core/tally/TallySums.h"
#include "core/tally/TextTable.h"
#include "core/units/QuantityText.h"
#include "core/wood/Species.h"

namespace stavewright {

namespace {

/// whole.decimals without trailing zeros; `places` decimals stand in `value`.
std::string decimal(Int128 value, int places) {
    const bool negative = value < 0;
    std::string digits;
    for (Int128 rest = negative ? -value : value; rest > 0 || digits.empty(); rest /= 10) {
        digits.insert(digits.begin(), static_cast<char>('0' + static_cast<int>(rest % 10)));
    }
    while (static_cast<int>(digits.size()) <= places) {
        digits.insert(digits.begin(), '0');
    }
    if (places > 0) {
        digits.insert(digits.end() - places, '.');
        digits.erase(digits.find_last_not_of('0') + 1);
        if (digits.back() == '.') {
            digits.pop_back();
        }
    }
    return (negative ? "-" : "") + digits;
}

/// Board feet to the millionth; cubic metres as they are shown.
std::string exactMeasure(BoardFeet amount, UnitSystem units) {
    return units == UnitSystem::Inches ? decimal(amount.inMillionths(), 6)
                                       : formatLumber(amount, units);
}

} // namespace

std::string exactDecimal(Length length, UnitSystem units) {
    if (units == UnitSystem::Millimetres) {
        return decimal(length.inNanometres(), 6);
    }
    // 1 in = 25 400 000 nm. To ten decimals every nanometre comes back; fractions of two are exact.
    constexpr int places = 10;
    constexpr Int128 scale = 10'000'000'000;
    const Int128 scaled = static_cast<Int128>(length.inNanometres()) * scale;
    const Int128 half = (scaled < 0 ? -Length::nanometresPerInch : Length::nanometresPerInch) / 2;
    return decimal((scaled + half) / Length::nanometresPerInch, places);
}

std::string csvOf(const std::vector<Board>& boards, UnitSystem units) {
    const bool inches = units == UnitSystem::Inches;
    const std::string sign = inches ? " (in)" : " (mm)";
    const std::string measure = inches ? "bd ft" : "m\xC2\xB3";
    std::vector<std::vector<std::string>> rows = {
        {"Mark", "Species", "Rough", "Length" + sign, "Width" + sign, "Far width" + sign,
         "Thin spot" + sign, "Price per " + measure, "Billed (" + measure + ")", "Moisture (%)",
         "Notes", "By tally (" + measure + ")", "By size (" + measure + ")"}};
    TallySummer summer;
    for (const Board& board : boards) {
        const EndWidths widths = endWidthsOf(board.outline);
        const Species* species = findSpecies(board.species);
        const BoardFeet tallied = summer.add(board);
        rows.push_back(
            {board.mark, std::string(species != nullptr ? species->name : board.species),
             std::to_string(board.quarter.quarters) + "/4", exactDecimal(lengthOf(board), units),
             exactDecimal(widths.atDatum, units), exactDecimal(widths.atFar, units),
             exactDecimal(board.thinnest, units),
             decimal(pricePerLumberUnit(board.pricePerBoardFoot, units).inTenThousandths(), 4),
             board.billed ? exactMeasure(*board.billed, units) : "",
             board.moistureTenths ? decimal(*board.moistureTenths, 1) : "", board.notes,
             formatLumber(tallied, units), formatLumber(exactBoardFeet(board), units)});
    }
    return textOf(rows, ',');
}

} // namespace stavewright
