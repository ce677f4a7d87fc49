#include "published/PricedVariants.h"

namespace stavewright::cutting::bench {

bool runAfg2014(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/computed_optima.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        auto numbers = Numbers::of(folder + "/" + line.text("set") + ".txt");
        auto sheet = numbers ? readSheet(*numbers, PieceFields::Value) : std::nullopt;
        if (!sheet) {
            continue;
        }
        const std::int64_t holes = line.number("defects_used").value_or(0);
        numbers->next(); // how many the file has; the first ones count
        for (std::int64_t h = 0; h < holes; ++h) {
            SheetHole hole;
            hole.x = numbers->next();
            hole.y = numbers->next();
            hole.length = numbers->next();
            hole.width = numbers->next();
            sheet->holes.push_back(hole);
        }
        const std::string defects = line.text("defects_used");
        printVariants(*sheet, line, line.text("set") + " D" + defects,
                      holes == 0 ? "clear " : "with defects ", options.secondsOr(5), table);
    }
    return true;
}

} // namespace stavewright::cutting::bench
