#include "core/tally/ColumnGuess.h"

#include <algorithm>
#include <set>

#include "core/base/PlainText.h"
#include "core/tally/TallyCells.h"

namespace stavewright {

namespace {

constexpr std::size_t mostAlike = 500; // boards that one row may stand for

bool isNumber(const std::string& text) { return parseLength(text, UnitSystem::Millimetres).ok(); }

/// Digits with at most one point or comma, or a fraction: no unit stands behind it.
bool isBareNumber(const std::string& text) {
    return !text.empty() && text.find_first_of("0123456789") != std::string::npos &&
           text.find_first_not_of("0123456789.,/ -") == std::string::npos;
}

std::optional<ColumnMap> byHeadings(const TextTable& table) {
    ColumnMap map;
    map.hasHeadings = true;
    std::set<TallyField> taken;
    std::size_t known = 0;
    const std::vector<std::string>& first = table.rows.front();
    for (std::size_t i = 0; i < table.columns(); ++i) {
        const std::string heading = i < first.size() ? first[i] : "";
        if (isNumber(heading)) {
            return std::nullopt;
        }
        SourceColumn column{heading, TallyField::Notes, TallyUnit::None};
        if (const auto read = readHeading(heading)) {
            ++known;
            column.field = read->field;
            column.unit = read->unit;
            if (column.field == TallyField::Width && taken.count(TallyField::Width) > 0) {
                column.field = TallyField::FarWidth; // the second of two widths
            }
            if (!taken.insert(column.field).second && column.field != TallyField::LeaveOut) {
                column.field = TallyField::Notes;
            }
        } else if (heading.empty()) {
            column.field = TallyField::LeaveOut;
        }
        map.columns.push_back(column);
    }
    const bool enough = known >= 2 || (known == 1 && table.columns() == 1);
    return enough ? std::optional(map) : std::nullopt;
}

/// What the cells of one column have in common.
struct Looks {
    std::size_t filled = 0;
    std::size_t quarters = 0;
    std::size_t species = 0;
    std::size_t money = 0;
    std::size_t numbers = 0;
    Length middle; ///< the median as a length in the job's unit
};

Looks looksOf(const TextTable& table, std::size_t column, UnitSystem units) {
    Looks looks;
    std::vector<Length> lengths;
    for (const std::vector<std::string>& row : table.rows) {
        const std::string text = column < row.size() ? row[column] : "";
        if (text.empty() || tally::isDitto(text)) {
            continue;
        }
        ++looks.filled;
        looks.quarters += text.find("/4") != std::string::npos &&
                                  text.find(' ') == std::string::npos &&
                                  tally::readRough(text, units).ok()
                              ? 1
                              : 0;
        looks.species += tally::readSpecies(text).ok() ? 1 : 0;
        looks.money += text.find_first_of("$") != std::string::npos ||
                               text.find("\xE2\x82\xAC") != std::string::npos ||
                               text.find("\xC2\xA3") != std::string::npos
                           ? 1
                           : 0;
        if (const auto length = parseLength(text, units); length.ok()) {
            ++looks.numbers;
            lengths.push_back(length.value());
        }
    }
    if (!lengths.empty()) {
        std::nth_element(lengths.begin(),
                         lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 2),
                         lengths.end());
        looks.middle = lengths[lengths.size() / 2];
    }
    return looks;
}

bool most(std::size_t part, const Looks& looks) {
    return looks.filled > 0 && part * 2 > looks.filled;
}

ColumnMap byLooks(const TextTable& table, UnitSystem units) {
    ColumnMap map;
    std::vector<Looks> looks;
    for (std::size_t i = 0; i < table.columns(); ++i) {
        map.columns.push_back({});
        looks.push_back(looksOf(table, i, units));
    }
    std::set<TallyField> taken;
    const auto take = [&](std::size_t i, TallyField field) {
        if (map.columns[i].field == TallyField::LeaveOut && taken.insert(field).second) {
            map.columns[i].field = field;
        }
    };
    for (std::size_t i = 0; i < looks.size(); ++i) {
        if (most(looks[i].quarters, looks[i])) {
            take(i, TallyField::Rough);
        } else if (most(looks[i].species, looks[i])) {
            take(i, TallyField::Species);
        } else if (most(looks[i].money, looks[i])) {
            take(i, TallyField::Price);
        }
    }
    // The longest measure of a board is its length. What stands before it is its mark.
    std::optional<std::size_t> length;
    for (std::size_t i = 0; i < looks.size(); ++i) {
        const bool open = map.columns[i].field == TallyField::LeaveOut;
        if (open && most(looks[i].numbers, looks[i]) &&
            (!length || looks[i].middle > looks[*length].middle)) {
            length = i;
        }
    }
    if (length) {
        take(*length, TallyField::Length);
        for (std::size_t i = 0; i < *length; ++i) {
            if (map.columns[i].field != TallyField::LeaveOut || looks[i].filled == 0) {
                continue;
            }
            const bool thickness = taken.count(TallyField::Mark) > 0;
            take(i, thickness ? TallyField::Rough : TallyField::Mark);
        }
        // Behind it as it is called out: widths, the thin spot, the price.
        constexpr Length thickest = Length::inches(9, 2);
        for (std::size_t i = *length + 1; i < looks.size(); ++i) {
            if (map.columns[i].field != TallyField::LeaveOut || looks[i].filled == 0) {
                continue;
            }
            if (!most(looks[i].numbers, looks[i])) {
                take(i, TallyField::Notes);
            } else if (taken.count(TallyField::Width) == 0) {
                take(i, TallyField::Width);
            } else if (taken.count(TallyField::FarWidth) == 0 && looks[i].middle > thickest &&
                       taken.count(TallyField::Thinnest) == 0) {
                take(i, TallyField::FarWidth);
            } else if (taken.count(TallyField::Thinnest) == 0 && looks[i].middle <= thickest) {
                take(i, TallyField::Thinnest);
            } else if (taken.count(TallyField::Price) == 0) {
                take(i, TallyField::Price);
            }
        }
    }
    for (SourceColumn& column : map.columns) {
        const auto i = static_cast<std::size_t>(&column - map.columns.data());
        if (column.field == TallyField::LeaveOut && looks[i].filled > 0) {
            column.field = TallyField::Notes; // nothing is lost
        }
    }
    return map;
}

std::size_t countOf(const std::string& text) {
    if (text.empty() || text.size() > 4 ||
        text.find_first_not_of("0123456789") != std::string::npos) {
        return 1;
    }
    return std::clamp<std::size_t>(std::stoul(text), 1, mostAlike);
}

void putInto(TallyRow& row, const SourceColumn& column, const std::string& text) {
    std::string& cell = row.at(column.field);
    if (column.field == TallyField::Notes) {
        const bool named = !column.heading.empty() && !readHeading(column.heading);
        cell += (cell.empty() ? "" : "; ") + (named ? column.heading + ": " + text : text);
        return;
    }
    cell = text;
    if (isBareNumber(text)) {
        cell += signOf(column.unit);
    }
}

} // namespace

ColumnMap guessColumns(const TextTable& table, UnitSystem units) {
    if (table.rows.empty()) {
        return {};
    }
    if (const auto map = byHeadings(table)) {
        return *map;
    }
    return byLooks(table, units);
}

std::vector<TallyRow> rowsOf(const TextTable& table, const ColumnMap& map) {
    std::vector<TallyRow> rows;
    for (std::size_t r = map.hasHeadings ? 1 : 0; r < table.rows.size(); ++r) {
        const std::vector<std::string>& source = table.rows[r];
        TallyRow row;
        std::size_t count = 1;
        for (std::size_t i = 0; i < source.size() && i < map.columns.size(); ++i) {
            const SourceColumn& column = map.columns[i];
            if (source[i].empty() || column.field == TallyField::LeaveOut) {
                continue;
            }
            if (column.field == TallyField::Count) {
                count = countOf(source[i]);
            } else {
                putInto(row, column, source[i]);
            }
        }
        rows.push_back(row);
        for (TallyRow& more : moreLike(row, count - 1)) {
            rows.push_back(std::move(more));
        }
    }
    return rows;
}

std::vector<TallyRow> moreLike(const TallyRow& row, std::size_t count) {
    std::vector<TallyRow> rows;
    std::string mark(trimmed(row.at(TallyField::Mark)));
    for (std::size_t i = 0; i < count; ++i) {
        rows.push_back(row);
        if (!mark.empty()) {
            mark = nextMark(mark);
            rows.back().at(TallyField::Mark) = mark;
        }
    }
    return rows;
}

} // namespace stavewright
