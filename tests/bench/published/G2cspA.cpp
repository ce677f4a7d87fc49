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
        if (sheet) {
            printFewestBoards(*sheet, line, "fixed_lower", "fixed_status", options,
                              options.secondsOr(20), table);
        }
    }
    return true;
}

} // namespace stavewright::cutting::bench
