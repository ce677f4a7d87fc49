#include "published/Families.h"
#include "published/MostValue.h"

namespace stavewright::cutting::bench {

bool runG2mkp(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        auto numbers = Numbers::of(folder + "/" + line.text("name") + ".txt");
        const auto best = line.number("fixed_best");
        if (!numbers || !best) {
            continue;
        }
        Sheet sheet;
        sheet.length = numbers->next();
        sheet.width = numbers->next();
        const auto boards = static_cast<int>(numbers->next());
        readPieces(*numbers, PieceFields::ValueAndCopies, sheet);
        Row row = mostValue(sheet, boards, line.text("name"), options, options.secondsOr(5));
        row.published = static_cast<double>(*best);
        row.reached = row.value >= *row.published;
        const auto upper = line.number("fixed_upper");
        if (upper && row.value > static_cast<double>(*upper)) {
            row.faults.push_back("the value is above the upper bound");
        }
        table.print(row, line.text("fixed_status"), 1 - row.value / *row.published);
    }
    return true;
}

} // namespace stavewright::cutting::bench
