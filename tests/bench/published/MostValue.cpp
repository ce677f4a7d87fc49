#include "MostValue.h"

#include "published/BetterDirection.h"

namespace stavewright::cutting::bench {

Row mostValue(const Sheet& sheet, int boards, const std::string& name, const BenchOptions& options,
              double seconds) {
    std::int64_t whole = 0;
    for (const SheetPiece& piece : sheet.pieces) {
        whole += piece.value * piece.copies;
    }
    const auto solved = [&](const Sheet& stated) {
        const Problem problem = problemOf(stated, boards, 0, Stages::Three);
        Measured measured = measureSolve(problem, options, seconds, 1);
        measured.row.value = static_cast<double>(whole - measured.solution.value / valueUnit);
        return measured.row;
    };
    return betterDirection(sheet, name, solved,
                           [](const Row& a, const Row& b) { return a.value > b.value; });
}

} // namespace stavewright::cutting::bench
