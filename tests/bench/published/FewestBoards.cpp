#include "FewestBoards.h"

#include <algorithm>

#include "published/BetterDirection.h"

namespace stavewright::cutting::bench {

int shelfBoards(const Sheet& sheet) {
    // Sections as long as their first piece, filled across; first section that has room, then the
    // first board that has.
    struct Section {
        std::int64_t length = 0, left = 0;
    };
    struct Used {
        std::int64_t left = 0;
        std::vector<Section> sections;
    };
    std::vector<SheetPiece> pieces;
    for (const SheetPiece& piece : sheet.pieces) {
        pieces.insert(pieces.end(), static_cast<std::size_t>(piece.copies), piece);
    }
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const SheetPiece& a, const SheetPiece& b) { return a.length > b.length; });
    std::vector<Used> boards;
    const auto place = [&](const SheetPiece& piece) {
        for (Used& board : boards) {
            for (Section& section : board.sections) {
                if (section.length >= piece.length && section.left >= piece.width) {
                    section.left -= piece.width;
                    return;
                }
            }
            if (board.left >= piece.length) {
                board.left -= piece.length;
                board.sections.push_back({piece.length, sheet.width - piece.width});
                return;
            }
        }
        boards.push_back(
            {sheet.length - piece.length, {{piece.length, sheet.width - piece.width}}});
    };
    for (const SheetPiece& piece : pieces) {
        place(piece);
    }
    return static_cast<int>(boards.size());
}

Row fewestBoards(const Sheet& sheet, const BenchOptions& options, double seconds) {
    Sheet priced = sheet;
    const int shelves = shelfBoards(sheet);
    const int boards = shelves + std::max(2, shelves / 10); // some to spare
    for (SheetPiece& piece : priced.pieces) {
        piece.value = boards + 1;
    }
    const Problem problem = problemOf(priced, boards, valueUnit, Stages::Three);
    Measured measured = measureSolve(problem, options, seconds, 1);
    measured.row.value = static_cast<double>(measured.solution.patterns.size());
    return measured.row;
}

void compareWith(std::int64_t least, Row& row) {
    row.published = static_cast<double>(least);
    row.reached = isComplete(row) && row.value <= *row.published;
    if (isComplete(row) && row.value < *row.published) {
        row.faults.push_back("better than the proven bound");
    }
}

std::optional<double> excess(const Row& row) {
    return isComplete(row) ? std::optional(row.value / *row.published - 1) : std::nullopt;
}

void printFewestBoards(const Sheet& sheet, const KnownLine& known, const std::string& lower,
                       const std::string& status, const BenchOptions& options, double seconds,
                       FamilyTable& table) {
    const auto proved = known.number(lower);
    const auto least = proved ? proved : known.number("area_lower");
    if (!least) {
        return;
    }
    Row row = betterDirection(
        sheet, known.text("name"),
        [&](const Sheet& stated) { return fewestBoards(stated, options, seconds / 2); },
        [](const Row& a, const Row& b) {
            return a.placed > b.placed || (a.placed == b.placed && a.value < b.value);
        });
    compareWith(*least, row);
    const std::string group = !proved                           ? "by area"
                              : known.text(status) == "optimal" ? "proven"
                                                                : "open";
    table.print(row, group, excess(row));
}

} // namespace stavewright::cutting::bench
