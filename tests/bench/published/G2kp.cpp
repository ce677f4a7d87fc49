#include "published/Families.h"
#include "published/MostValue.h"

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
        Row row = mostValue(*sheet, 1, line.text("name"), options, options.secondsOr(2));
        row.published = static_cast<double>(*optimum);
        row.reached = row.value >= *row.published;
        if (row.value > *row.published) {
            row.faults.push_back("the value is above the optimum");
        }
        table.print(row, "", 1 - row.value / *row.published);
    }
    return true;
}

} // namespace stavewright::cutting::bench
