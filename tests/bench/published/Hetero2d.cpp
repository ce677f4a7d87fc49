// Boards of several sizes, so many of each; what counts is the area of the boards used. Known is
// only the least area of any boards that are large enough together, which need not be cuttable.

#include <vector>

#include "published/BetterDirection.h"
#include "published/FewestBoards.h"

namespace stavewright::cutting::bench {

namespace {

struct Size {
    std::int64_t length = 0, width = 0, stock = 0, cost = 0;
};

Row leastArea(const Sheet& pieces, const std::vector<Size>& sizes, bool swap,
              const BenchOptions& options) {
    Sheet priced = pieces;
    std::int64_t all = 1;
    for (const Size& size : sizes) {
        all += size.cost * size.stock;
    }
    for (SheetPiece& piece : priced.pieces) {
        piece.value = all; // leaving one out is dearer than all boards
    }
    Problem problem;
    for (const Size& size : sizes) {
        priced.length = swap ? size.width : size.length;
        priced.width = swap ? size.length : size.width;
        Problem part =
            problemOf(priced, static_cast<int>(size.stock), size.cost * valueUnit, Stages::Three);
        problem.boards.insert(problem.boards.end(), part.boards.begin(), part.boards.end());
        problem.kinds = std::move(part.kinds);
    }
    Measured measured = measureSolve(problem, options, options.secondsOr(10) / 2, 1);
    Cost area = 0;
    for (const Pattern& pattern : measured.solution.patterns) {
        area += problem.boards[static_cast<std::size_t>(pattern.board)].cost / valueUnit;
    }
    measured.row.value = static_cast<double>(area);
    return measured.row;
}

} // namespace

bool runHetero2d(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        auto numbers = Numbers::of(folder + "/" + line.text("name") + ".txt");
        const auto lower = line.number("used_area_lower");
        if (!numbers || !lower) {
            continue;
        }
        std::vector<Size> sizes(static_cast<std::size_t>(numbers->next()));
        for (Size& size : sizes) {
            size.length = numbers->next();
            size.width = numbers->next();
            size.stock = numbers->next();
            size.cost = numbers->next();
        }
        Sheet sheet;
        readPieces(*numbers, PieceFields::Copies, sheet);
        bool swap = false; // the second call is the one with exchanged axes
        Row row = betterDirection(
            sheet, line.text("name"),
            [&](const Sheet& stated) {
                Row solved = leastArea(stated, sizes, swap, options);
                swap = true;
                return solved;
            },
            [](const Row& a, const Row& b) {
                return a.placed > b.placed || (a.placed == b.placed && a.value < b.value);
            });
        compareWith(*lower, row);
        // Where boards of all sizes are just as large as all pieces, a plan may have to leave out
        // some; then there is no area to compare.
        table.print(row, "", excess(row));
    }
    return true;
}

} // namespace stavewright::cutting::bench
