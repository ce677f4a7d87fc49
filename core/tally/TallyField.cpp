#include "core/tally/TallyField.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace stavewright {

namespace {

using Words = std::vector<std::string>;

constexpr std::array<std::string_view, allTallyFields.size()> names = {
    "Mark",  "Species", "Rough",    "Length", "Width", "Far width", "Thin spot",
    "Price", "Billed",  "Moisture", "Notes",  "Count", "Leave out"};

/// Lower case, with everything that is no letter, digit or unit sign as a blank between words.
Words wordsOf(std::string_view text) {
    Words words;
    std::string word;
    const auto finish = [&] {
        if (!word.empty()) {
            words.push_back(std::exchange(word, {}));
        }
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        constexpr std::string_view cubed = "\xC2\xB3";
        if (text.substr(i, cubed.size()) == cubed) {
            word += '3';
            ++i;
        } else if (c >= 'A' && c <= 'Z') {
            word += static_cast<char>(c - 'A' + 'a');
        } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
            word += c;
        } else if (c == '"' || c == '\'' || c == '%' || c == '#') {
            finish();
            words.emplace_back(1, c);
        } else if (static_cast<unsigned char>(c) >= 0x80) {
            word += c;
        } else {
            finish();
        }
    }
    finish();
    return words;
}

const std::vector<std::pair<std::string_view, TallyUnit>>& unitWords() {
    static const std::vector<std::pair<std::string_view, TallyUnit>> all = {
        {"mm", TallyUnit::Millimetres},
        {"millimetres", TallyUnit::Millimetres},
        {"millimeters", TallyUnit::Millimetres},
        {"cm", TallyUnit::Centimetres},
        {"centimetres", TallyUnit::Centimetres},
        {"centimeters", TallyUnit::Centimetres},
        {"m", TallyUnit::Metres},
        {"metres", TallyUnit::Metres},
        {"meters", TallyUnit::Metres},
        {"in", TallyUnit::Inches},
        {"inch", TallyUnit::Inches},
        {"inches", TallyUnit::Inches},
        {"\"", TallyUnit::Inches},
        {"ft", TallyUnit::Feet},
        {"feet", TallyUnit::Feet},
        {"foot", TallyUnit::Feet},
        {"'", TallyUnit::Feet},
        {"quarters", TallyUnit::Quarters},
        {"quarter", TallyUnit::Quarters},
        {"m3", TallyUnit::CubicMetres},
        {"cbm", TallyUnit::CubicMetres},
        {"bf", TallyUnit::BoardFeet},
        {"bft", TallyUnit::BoardFeet},
        {"bdft", TallyUnit::BoardFeet}};
    return all;
}

/// The unit that the words end with; its words are taken off.
TallyUnit takeUnit(Words& words) {
    const auto endsWith = [&](const Words& tail) {
        return words.size() >= tail.size() &&
               std::equal(tail.begin(), tail.end(),
                          words.end() - static_cast<std::ptrdiff_t>(tail.size()));
    };
    const auto drop = [&](std::size_t count) {
        words.resize(words.size() - count);
        // "length in mm", "price per m3", "price a board foot"
        while (words.size() > 1 &&
               (words.back() == "in" || words.back() == "per" || words.back() == "a")) {
            words.pop_back();
        }
    };
    static const std::vector<std::pair<Words, TallyUnit>> phrases = {
        {{"board", "foot"}, TallyUnit::BoardFeet},    {{"board", "feet"}, TallyUnit::BoardFeet},
        {{"bd", "ft"}, TallyUnit::BoardFeet},         {{"cubic", "metre"}, TallyUnit::CubicMetres},
        {{"cubic", "meter"}, TallyUnit::CubicMetres}, {{"cubic", "metres"}, TallyUnit::CubicMetres},
        {{"cubic", "meters"}, TallyUnit::CubicMetres}};
    for (const auto& [phrase, unit] : phrases) {
        if (endsWith(phrase)) {
            drop(phrase.size());
            return unit;
        }
    }
    if (!words.empty()) {
        for (const auto& [word, unit] : unitWords()) {
            if (words.back() == word) {
                drop(1);
                return unit;
            }
        }
    }
    return TallyUnit::None;
}

struct Naming {
    TallyField field;
    std::vector<std::string_view> phrases;
};

const std::vector<Naming>& namings() {
    static const std::vector<Naming> all = {
        {TallyField::Mark,
         {"mark", "board", "board mark", "board no", "board number", "board id", "no", "nr", "#",
          "number", "id", "tag", "label", "name", "chalk mark"}},
        {TallyField::Species, {"species", "wood", "timber", "wood species", "lumber"}},
        {TallyField::Rough,
         {"rough", "quarter", "quarters", "thickness", "nominal", "nominal thickness", "thick", "t",
          "rough thickness", "sawn thickness"}},
        {TallyField::Length, {"length", "len", "l", "long", "board length"}},
        {TallyField::Width,
         {"width", "w", "wide", "width 1", "w1", "width1", "first width", "datum width",
          "width datum", "datum end", "width at datum", "width at datum end", "near width",
          "width a"}},
        {TallyField::FarWidth,
         {"far width", "width far", "width 2", "w2", "width2", "second width", "other width",
          "far end", "width at far end", "width at far", "width b"}},
        {TallyField::Thinnest,
         {"thin spot", "thinnest", "thin", "thinnest spot", "measured thickness",
          "actual thickness", "least thickness", "min thickness"}},
        {TallyField::Price, {"price", "rate", "unit price", "cost"}},
        {TallyField::Billed,
         {"billed", "tally", "measure", "footage", "volume", "yard tally", "billed measure"}},
        {TallyField::Moisture,
         {"moisture", "mc", "moisture content", "mc %", "moisture %", "moisture content %"}},
        {TallyField::Notes, {"notes", "note", "remarks", "remark", "comment", "comments"}},
        {TallyField::Count, {"count", "qty", "quantity", "pieces", "pcs", "how many", "boards"}},
        {TallyField::LeaveOut, {"by tally", "by size"}}}; // worked out, never read
    return all;
}

std::string joined(const Words& words) {
    std::string text;
    for (const std::string& word : words) {
        text += (text.empty() ? "" : " ") + word;
    }
    return text;
}

std::optional<TallyField> fieldNamed(const std::string& phrase) {
    for (const Naming& naming : namings()) {
        if (std::find(naming.phrases.begin(), naming.phrases.end(), phrase) !=
            naming.phrases.end()) {
            return naming.field;
        }
    }
    return std::nullopt;
}

bool isMeasure(TallyUnit unit) {
    return unit == TallyUnit::BoardFeet || unit == TallyUnit::CubicMetres;
}

} // namespace

std::string_view nameOf(TallyField field) { return names[static_cast<std::size_t>(field)]; }

std::string_view signOf(TallyUnit unit) {
    switch (unit) {
    case TallyUnit::Inches:
        return " in";
    case TallyUnit::Feet:
        return " ft";
    case TallyUnit::Millimetres:
        return " mm";
    case TallyUnit::Centimetres:
        return " cm";
    case TallyUnit::Metres:
        return " m";
    case TallyUnit::Quarters:
        return "/4";
    case TallyUnit::PerCubicMetre:
        return " per m\xC2\xB3";
    case TallyUnit::PerBoardFoot:
        return " per bd ft";
    case TallyUnit::CubicMetres:
        return " m\xC2\xB3";
    case TallyUnit::BoardFeet:
        return " bd ft";
    case TallyUnit::None:
        break;
    }
    return {};
}

std::optional<ReadHeading> readHeading(std::string_view heading) {
    Words words = wordsOf(heading);
    if (const auto whole = fieldNamed(joined(words))) {
        return ReadHeading{*whole, TallyUnit::None};
    }
    Words rest = words;
    const TallyUnit unit = takeUnit(rest);
    if (rest.empty()) { // "Bd ft" alone is the measure, "quarters" alone the rough thickness
        return isMeasure(unit) ? std::optional(ReadHeading{TallyField::Billed, unit})
                               : std::nullopt;
    }
    const auto field = fieldNamed(joined(rest));
    if (!field) {
        return std::nullopt;
    }
    if (*field == TallyField::Price && isMeasure(unit)) {
        return ReadHeading{*field, unit == TallyUnit::BoardFeet ? TallyUnit::PerBoardFoot
                                                                : TallyUnit::PerCubicMetre};
    }
    return ReadHeading{*field, unit};
}

} // namespace stavewright
