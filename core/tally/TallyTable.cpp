#include "core/tally/TallyTable.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/base/PlainText.h"
#include "core/document/Limits.h"
#include "core/lumber/BoardShape.h"
#include "core/tally/TallyCells.h"
#include "core/units/Glyph.h"
#include "core/units/QuantityText.h"
#include "core/wood/Species.h"

namespace stavewright {

namespace {

/// What empty cells of a row stand for.
struct Above {
    std::string mark;
    std::string species = "white_oak";
    Quarter rough;
    Money price;
    TallyRow texts; ///< as typed or, where a cell was empty, as it was read
};

class Reader {
  public:
    Reader(const Document& document, const std::vector<TallyRow>& rows)
        : m_document(document)
        , m_units(document.info.units) {
        for (const Board& board : document.boards) {
            m_onRack.insert(board.mark);
        }
        for (const TallyRow& row : rows) {
            const std::string mark(trimmed(row.at(TallyField::Mark)));
            if (!mark.empty()) {
                ++m_typed[mark];
            }
        }
        if (!document.boards.empty()) {
            const Board& last = document.boards.back();
            m_above.mark = last.mark;
            m_above.species = last.species;
            m_above.rough = last.quarter;
            m_above.price = last.pricePerBoardFoot;
        }
    }

    ReadTallyRow read(const TallyRow& row) {
        m_row = {};
        m_texts = row;
        m_good = true;
        for (std::size_t i = 0; i < tallyFields; ++i) {
            std::string& text = m_texts.cells[i];
            if (tally::isDitto(text)) {
                text = m_above.texts.cells[i];
                m_row.cells[i].standsFor = text;
            }
            text = std::string(trimmed(text));
        }
        Board board;
        board.mark = mark();
        board.species = inherited<std::string>(
            TallyField::Species, m_above.species,
            [](const std::string& text) { return tally::readSpecies(text); },
            [](const std::string& key) {
                const Species* species = findSpecies(key);
                return std::string(species != nullptr ? species->name : key);
            });
        board.quarter = inherited<Quarter>(
            TallyField::Rough, m_above.rough,
            [&](const std::string& text) { return tally::readRough(text, m_units); },
            [](const Quarter& quarter) { return std::to_string(quarter.quarters) + "/4"; });
        board.pricePerBoardFoot = inherited<Money>(
            TallyField::Price, m_above.price,
            [&](const std::string& text) { return tally::readPrice(text, m_units); },
            [&](Money price) { return formatMoney(pricePerLumberUnit(price, m_units), ""); });
        outline(board);
        thinnest(board);
        extras(board);
        if (m_good) {
            m_row.board = std::move(board);
        }
        keep();
        return m_row;
    }

  private:
    ReadTallyCell& cell(TallyField field) { return m_row.cells[static_cast<std::size_t>(field)]; }

    void refuse(TallyField field, const std::string& sentence) {
        if (cell(field).wrong.empty()) {
            cell(field).wrong = std::string(nameOf(field)) + ": " + sentence;
        }
        m_good = false;
    }

    template <class Value, class Read>
    std::optional<Value> typed(TallyField field, const Read& read) {
        const Result<Value> value = read(m_texts.at(field));
        if (!value) {
            refuse(field, value.error().message);
            return std::nullopt;
        }
        return value.value();
    }

    /// Empty means as above; what was typed counts for the rows below.
    template <class Value, class Read, class Say>
    Value inherited(TallyField field, Value& above, const Read& read, const Say& say) {
        if (m_texts.at(field).empty()) {
            cell(field).standsFor = say(above);
            return above;
        }
        if (const auto value = typed<Value>(field, read)) {
            above = *value;
            const std::string said = say(above);
            if (said != m_texts.at(field)) {
                cell(field).reading = said;
            }
        }
        return above;
    }

    std::string mark() {
        std::string mark = m_texts.at(TallyField::Mark);
        if (mark.empty()) {
            mark = nextMark(m_above.mark);
            while (m_onRack.count(mark) > 0 || m_typed.count(mark) > 0 || m_given.count(mark) > 0) {
                mark = nextMark(mark);
            }
            cell(TallyField::Mark).standsFor = mark;
        } else if (m_onRack.count(mark) > 0) {
            refuse(TallyField::Mark, "a board marked " + reading::inQuotes(mark) +
                                         " is in the job already; each board needs its own.");
        } else if (m_typed[mark] > 1) {
            refuse(TallyField::Mark, reading::inQuotes(mark) + " is typed for " +
                                         std::to_string(m_typed[mark]) +
                                         " boards of this tally; each board needs its own.");
        }
        if (reading::decodeUtf8(mark).size() > limits::markCharacters) {
            refuse(TallyField::Mark, reading::inQuotes(mark) + " is too long; a mark has at most " +
                                         std::to_string(limits::markCharacters) + " characters.");
        }
        m_given.insert(mark);
        m_above.mark = mark;
        return mark;
    }

    void outline(Board& board) {
        PlainOutline plain;
        const auto size = [&](TallyField field, Length most, const char* missing) {
            if (m_texts.at(field).empty()) {
                refuse(field, missing);
                return Length();
            }
            const auto read = typed<Length>(field, [&](const std::string& text) {
                return tally::readSize(text, m_units, most);
            });
            return read.value_or(Length());
        };
        plain.length = size(TallyField::Length, limits::longestBoard, "a board needs a length.");
        plain.widthAtDatum = size(TallyField::Width, limits::widestBoard, "a board needs a width.");
        plain.widthAtFar = plain.widthAtDatum;
        if (m_texts.at(TallyField::FarWidth).empty()) {
            cell(TallyField::FarWidth).standsFor = m_texts.at(TallyField::Width);
        } else {
            plain.widthAtFar = size(TallyField::FarWidth, limits::widestBoard, "");
        }
        if (m_good) {
            board.outline = outlineOf(plain);
        }
    }

    void thinnest(Board& board) {
        board.thinnest = board.quarter.nominal();
        if (m_texts.at(TallyField::Thinnest).empty()) {
            cell(TallyField::Thinnest).standsFor =
                formatLength(board.thinnest, {m_units, m_document.info.inchDenominator, false});
        } else if (const auto read =
                       typed<Length>(TallyField::Thinnest, [&](const std::string& text) {
                           return tally::readThinnest(text, m_units);
                       })) {
            board.thinnest = *read;
        }
    }

    void extras(Board& board) {
        if (!m_texts.at(TallyField::Billed).empty()) {
            board.billed = typed<BoardFeet>(TallyField::Billed, [&](const std::string& text) {
                return tally::readMeasure(text, m_units);
            });
        }
        if (!m_texts.at(TallyField::Moisture).empty()) {
            board.moistureTenths =
                typed<std::int64_t>(TallyField::Moisture, [&](const std::string& text) {
                    return tally::readMoisture(text);
                });
        }
        board.notes = m_texts.at(TallyField::Notes);
        if (reading::decodeUtf8(board.notes).size() > limits::noteCharacters) {
            refuse(TallyField::Notes, "the note is too long; it has at most " +
                                          std::to_string(limits::noteCharacters) + " characters.");
        }
    }

    /// A ditto below means what stands here, also where that was left empty.
    void keep() {
        for (std::size_t i = 0; i < tallyFields; ++i) {
            std::string& text = m_texts.cells[i];
            m_above.texts.cells[i] = text.empty() ? m_row.cells[i].standsFor : text;
        }
        m_above.texts.at(TallyField::Mark).clear(); // never the same twice: the next one
    }

    const Document& m_document;
    UnitSystem m_units;
    std::set<std::string> m_onRack;
    std::map<std::string, int> m_typed;
    std::set<std::string> m_given;
    Above m_above;
    ReadTallyRow m_row;
    TallyRow m_texts;
    bool m_good = true;
};

} // namespace

bool TallyRow::isEmpty() const {
    return std::all_of(cells.begin(), cells.end(),
                       [](const std::string& text) { return trimmed(text).empty(); });
}

ReadTally readTally(const Document& document, const std::vector<TallyRow>& rows) {
    ReadTally tally;
    Reader reader(document, rows);
    TallySummer summer;
    std::size_t room = mostBoards - std::min(mostBoards, document.boards.size());
    for (const TallyRow& row : rows) {
        if (row.isEmpty()) {
            tally.rows.emplace_back();
            continue;
        }
        ReadTallyRow read = reader.read(row);
        if (read.board && room == 0) {
            read.board.reset();
            read.cells.front().wrong = "Mark: the job is full; it holds at most " +
                                       std::to_string(mostBoards) + " boards.";
        }
        if (read.board) {
            --room;
            read.tallied = summer.add(*read.board);
        } else {
            ++tally.waiting;
        }
        tally.rows.push_back(std::move(read));
    }
    tally.sums = summer.sums();
    return tally;
}

Edit putInJob(const Document& document, const ReadTally& tally) {
    EditSequence all;
    std::size_t at = document.boards.size();
    std::int64_t next = document.nextId;
    for (const ReadTallyRow& row : tally.rows) {
        if (row.board) {
            Board board = *row.board;
            board.id = BoardId{next++};
            all.edits.push_back({InsertBoard{at++, std::move(board)}});
        }
    }
    return Edit{std::move(all)};
}

std::string nextMark(const std::string& mark) {
    const std::size_t before = mark.find_last_not_of("0123456789");
    const std::size_t digitsAt = before == std::string::npos ? 0 : before + 1;
    std::string digits = mark.substr(digitsAt);
    if (digits.empty()) {
        return mark.empty() ? "1" : mark + "1";
    }
    std::size_t i = digits.size();
    while (i > 0 && digits[i - 1] == '9') {
        digits[--i] = '0';
    }
    if (i > 0) {
        ++digits[i - 1];
    } else {
        digits.insert(digits.begin(), '1');
    }
    return mark.substr(0, digitsAt) + digits;
}

} // namespace stavewright
