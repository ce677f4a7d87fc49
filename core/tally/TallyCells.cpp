#include "core/tally/TallyCells.h"

#include <algorithm>
#include <array>
#include <span>

#include "core/base/PlainText.h"
#include "core/document/Limits.h"
#include "core/units/Glyph.h"
#include "core/units/QuantityText.h"
#include "core/wood/Species.h"

namespace stavewright::tally {

namespace {

Error refused(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), {}}; }

std::string said(Length length, UnitSystem units) {
    return formatLength(length, {units, 64, true});
}

/// Takes the first of the endings off that the text has.
bool dropEnding(std::string& text, std::span<const std::string_view> endings) {
    for (const std::string_view ending : endings) {
        if (text.size() > ending.size() &&
            text.compare(text.size() - ending.size(), ending.size(), ending) == 0) {
            text.resize(text.size() - ending.size());
            text = std::string(trimmed(text));
            return true;
        }
    }
    return false;
}

constexpr std::array<std::string_view, 1> quarterWords = {"/4"};
constexpr std::array<std::string_view, 3> perWords = {"per", "/", "a"};
constexpr std::array<std::string_view, 2> percentWords = {"%", "percent"};
constexpr std::array<std::string_view, 7> cubicMetreWords = {
    "m\xC2\xB3", "m3", "cubic metres", "cubic meters", "cubic metre", "cubic meter", "cbm"};
constexpr std::array<std::string_view, 7> boardFootWords = {
    "bd ft", "bd. ft.", "board feet", "board foot", "bdft", "bft", "bf"};

/// A cubic metre in nm^3 over a million.
BoardFeet ofCubicMetres(std::int64_t millionths) {
    constexpr Int128 millionthOfACubicMetre =
        static_cast<Int128>(1'000'000'000) * 1'000'000'000'000;
    return BoardFeet::ofVolume(
        Volume::cubicNanometres(static_cast<Int128>(millionths) * millionthOfACubicMetre));
}

std::optional<Quarter> quartersTyped(std::string_view text) {
    std::string digits(text);
    dropEnding(digits, quarterWords);
    if (digits.empty() || digits.size() > 2 ||
        digits.find_first_not_of("0123456789") != std::string::npos) {
        return std::nullopt;
    }
    const Quarter quarter{std::stoi(digits)};
    const bool trade =
        std::find(tradeQuarters.begin(), tradeQuarters.end(), quarter) != tradeQuarters.end();
    return trade ? std::optional(quarter) : std::nullopt;
}

} // namespace

bool isDitto(std::string_view text) {
    const std::string word = lowerCase(trimmed(text));
    return word == "\"" || word == "''" || word == "do" || word == "do." || word == "ditto" ||
           word == "\xE2\x80\x9D" || word == "\xE2\x80\x9C";
}

Result<Quarter> readRough(std::string_view text, UnitSystem units) {
    if (const auto typed = quartersTyped(trimmed(text))) {
        return *typed;
    }
    // Yards that saw in millimetres name 26 or 27 for 4/4, 52 for 8/4.
    constexpr Length near = Length::inches(1, 8);
    if (const Result<Length> length = parseLength(text, units); length.ok()) {
        const Quarter* nearest = nullptr;
        for (const Quarter& quarter : tradeQuarters) {
            const Length off = abs(quarter.nominal() - length.value());
            if (off <= near &&
                (nearest == nullptr || off < abs(nearest->nominal() - length.value()))) {
                nearest = &quarter;
            }
        }
        if (nearest != nullptr) {
            return *nearest;
        }
    }
    return refused(reading::inQuotes(text) +
                   " is no rough thickness; it must be 4/4, 5/4, 6/4, 8/4, 10/4, 12/4 or 16/4.");
}

Result<std::string> readSpecies(std::string_view text) {
    const std::string wanted = lowerCase(trimmed(text));
    const Species* only = nullptr;
    int found = 0;
    for (const Species& species : allSpecies()) {
        const std::string name = lowerCase(species.name);
        if (name == wanted || species.key == wanted) {
            return std::string(species.key);
        }
        if (!wanted.empty() && name.find(wanted) != std::string::npos) {
            only = &species;
            ++found;
        }
    }
    if (found == 1) {
        return std::string(only->key);
    }
    return refused(found == 0 ? reading::inQuotes(text) +
                                    " is not in the list of species; choose one of them."
                              : reading::inQuotes(text) + " may be " + std::to_string(found) +
                                    " species; type more of the name.");
}

Result<Length> readSize(std::string_view text, UnitSystem units, Length most) {
    const Result<Length> read = parseLength(text, units);
    if (!read) {
        return read.error();
    }
    if (read.value() <= Length() || read.value() > most) {
        return refused(reading::inQuotes(text) + " is " + said(read.value(), units) +
                       "; it must be above 0 and at most " + said(most, units) + ".");
    }
    return read.value();
}

Result<Length> readThinnest(std::string_view text, UnitSystem units) {
    const Result<Thickness> read = parseThickness(text, units);
    if (!read) {
        return read.error();
    }
    if (read.value().length <= Length() || read.value().length > limits::thickest) {
        return refused(reading::inQuotes(text) + " is " + said(read.value().length, units) +
                       "; a thickness must be above 0 and at most " +
                       said(limits::thickest, units) + ".");
    }
    return read.value().length;
}

Result<Money> readPrice(std::string_view text, UnitSystem units) {
    std::string number = lowerCase(trimmed(text));
    UnitSystem measure = units;
    if (dropEnding(number, cubicMetreWords)) {
        measure = UnitSystem::Millimetres;
        dropEnding(number, perWords);
    } else if (dropEnding(number, boardFootWords)) {
        measure = UnitSystem::Inches;
        dropEnding(number, perWords);
    }
    const Result<Money> read = parseMoney(number);
    if (!read) {
        return read.error();
    }
    const Money price = pricePerBoardFoot(read.value(), measure);
    if (price < Money() || price > limits::price) {
        return refused("The price " + reading::inQuotes(text) + " comes to " +
                       formatMoney(price, "") + " a board foot; it must be from 0 to " +
                       formatMoney(limits::price, "") + ".");
    }
    return price;
}

Result<BoardFeet> readMeasure(std::string_view text, UnitSystem units) {
    std::string number = lowerCase(trimmed(text));
    bool metres = units == UnitSystem::Millimetres;
    if (dropEnding(number, cubicMetreWords)) {
        metres = true;
    } else if (dropEnding(number, boardFootWords)) {
        metres = false;
    }
    const Result<BoardFeet> read = parseBoardFeet(number);
    if (!read) {
        return read.error();
    }
    const bool tooMuch = read.value() > limits::billed; // also keeps the product small
    const BoardFeet amount =
        metres && !tooMuch ? ofCubicMetres(read.value().inMillionths()) : read.value();
    if (amount <= BoardFeet() || amount > limits::billed) {
        return refused("The measure " + reading::inQuotes(text) + " must be above 0 and at most " +
                       lumberText(limits::billed, units) + ".");
    }
    return amount;
}

Result<std::int64_t> readMoisture(std::string_view text) {
    std::string number = lowerCase(trimmed(text));
    dropEnding(number, percentWords);
    // A plain decimal, read as money is: to ten-thousandths and without a locale.
    const Result<Money> read = parseMoney(number);
    const Money most = Money::whole(200); // green wood may hold twice its dry weight of water
    if (!read || read.value() < Money() || read.value() > most ||
        number.find_first_not_of("0123456789.,") != std::string::npos) {
        return refused(reading::inQuotes(text) +
                       " is no moisture content; it must be from 0 to 200 percent.");
    }
    return (read.value().inTenThousandths() + 500) / 1'000;
}

} // namespace stavewright::tally
