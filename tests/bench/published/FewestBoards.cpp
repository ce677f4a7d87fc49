#include "FewestBoards.h"

#include <algorithm>

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
    const int boards = shelfBoards(sheet);
    for (SheetPiece& piece : priced.pieces) {
        piece.value = boards + 1;
    }
    const Problem problem = problemOf(priced, boards, valueUnit, Stages::Three);
    Measured measured = measureSolve(problem, options, seconds, 1);
    measured.row.value = static_cast<double>(measured.solution.patterns.size());
    if (unplacedIn(measured.solution) > 0) {
        measured.row.faults.push_back("engine: leaves out pieces though a plan with all exists");
    }
    return measured.row;
}

} // namespace stavewright::cutting::bench
