// The engine has no notion of a most value; leaving a piece out costs its value, the board is free,
// so what the engine saves of the whole value is the value it makes.

#include <algorithm>

#include "Measure.h"
#include "published/Families.h"
#include "published/Sheet.h"

namespace stavewright::cutting::bench {

bool runG2kp(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        auto numbers = Numbers::of(folder + "/" + line.text("name") + ".txt");
        const auto sheet =
            numbers ? readSheet(*numbers, PieceFields::ValueAndCopies) : std::nullopt;
        const auto optimum = line.number("value");
        if (!sheet || !optimum) {
            continue;
        }
        std::int64_t whole = 0;
        for (const SheetPiece& piece : sheet->pieces) {
            whole += piece.value * piece.copies;
        }
        std::optional<Row> best; // of both directions of the first cuts
        for (const bool swap : {false, true}) {
            const Problem problem = problemOf(swap ? swapped(*sheet) : *sheet, 1, 0, Stages::Three);
            Measured measured = measureSolve(problem, options, options.secondsOr(2), 1);
            Row& row = measured.row;
            row.instance = line.text("name") + (swap ? " H" : " V");
            row.value = static_cast<double>(whole - measured.solution.value / valueUnit);
            if (!best || row.value > best->value) {
                std::vector<std::string> faults = best ? best->faults : std::vector<std::string>();
                best = row;
                best->faults.insert(best->faults.end(), faults.begin(), faults.end());
            } else {
                best->faults.insert(best->faults.end(), row.faults.begin(), row.faults.end());
            }
        }
        best->published = static_cast<double>(*optimum);
        best->reached = best->value >= *best->published;
        if (best->value > *best->published) {
            best->faults.push_back("the value is above the optimum");
        }
        table.print(*best, "", 1 - best->value / *best->published);
    }
    return true;
}

} // namespace stavewright::cutting::bench
