#pragma once
// A tally being typed: cells as they stand, whatever they hold, and what they are read as. A cell
// that cannot be read keeps its text and gets one sentence; its row waits, the others are boards.
//
//   const ReadTally read = readTally(document, rows);
//   apply(document, putInJob(document, read));

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/document/Edit.h"
#include "core/tally/TallyField.h"
#include "core/tally/TallySums.h"

namespace stavewright {

struct TallyRow {
    std::array<std::string, tallyFields> cells; ///< by TallyField
    [[nodiscard]] const std::string& at(TallyField field) const {
        return cells[static_cast<std::size_t>(field)];
    }
    [[nodiscard]] std::string& at(TallyField field) {
        return cells[static_cast<std::size_t>(field)];
    }
    [[nodiscard]] bool isEmpty() const;
    friend bool operator==(const TallyRow&, const TallyRow&) = default;
};

struct ReadTallyCell {
    std::string wrong;     ///< why the text cannot be taken; empty when it can
    std::string standsFor; ///< what an empty cell or a ditto is read as, in the job's words
    std::string reading;   ///< what a good cell is read as where its text leaves that open
    friend bool operator==(const ReadTallyCell&, const ReadTallyCell&) = default;
};
struct ReadTallyRow {
    std::array<ReadTallyCell, tallyFields> cells;
    std::optional<Board> board; ///< when the row is good; its ids are not given yet
    BoardFeet tallied;          ///< by the tally rule
    [[nodiscard]] const ReadTallyCell& at(TallyField field) const {
        return cells[static_cast<std::size_t>(field)];
    }
    friend bool operator==(const ReadTallyRow&, const ReadTallyRow&) = default;
};
struct ReadTally {
    std::vector<ReadTallyRow> rows; ///< one for each row; of an empty row without anything
    TallySums sums;                 ///< of the good rows
    std::size_t waiting = 0;        ///< rows with something in them that are no boards yet
    friend bool operator==(const ReadTally&, const ReadTally&) = default;
};

/// Species, rough thickness and price left empty are those of the row above, first of the last
/// board on the rack; an empty mark is the next number; an empty far width is the width; an empty
/// thin spot the nominal thickness. Marks must be new in the job and in the tally.
[[nodiscard]] ReadTally readTally(const Document& document, const std::vector<TallyRow>& rows);

/// Puts the good rows at the end of the rack, all in one step.
[[nodiscard]] Edit putInJob(const Document& document, const ReadTally& tally);

/// The mark after this one: "13" after "12", "A8" after "A7"; "A1" after "A", "1" after none.
[[nodiscard]] std::string nextMark(const std::string& mark);

} // namespace stavewright
