// Published are the boards that cutting in any number of stages needs at least, so a plan in the
// engine's stages may need more. The better direction of the first cuts counts, half the time each.

#include <algorithm>

#include "published/Families.h"
#include "published/FewestBoards.h"

namespace stavewright::cutting::bench {

bool runG2cspA(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        auto numbers = Numbers::of(folder + "/" + line.text("name") + ".txt");
        const auto sheet = numbers ? readSheet(*numbers, PieceFields::Copies) : std::nullopt;
        if (!sheet) {
            continue;
        }
        const double seconds = options.secondsOr(20) / 2;
        Row row = fewestBoards(*sheet, options, seconds);
        const Row other = fewestBoards(swapped(*sheet), options, seconds);
        const bool swap =
            other.placed > row.placed || (other.placed == row.placed && other.value < row.value);
        row = swap ? other : row;
        row.instance = line.text("name") + (swap ? " H" : " V");
        const auto lower = line.number("fixed_lower");
        const auto least = lower ? lower : line.number("area_lower");
        if (!least) {
            continue;
        }
        row.published = static_cast<double>(*least);
        row.reached = row.value <= *row.published;
        if (row.value < *row.published && row.faults.empty()) {
            row.faults.push_back("fewer boards than the lower bound");
        }
        const std::string group = !lower                                   ? "area bound only"
                                  : line.text("fixed_status") == "optimal" ? "proven"
                                                                           : "open";
        table.print(row, group, row.value / *row.published - 1);
    }
    return true;
}

} // namespace stavewright::cutting::bench
