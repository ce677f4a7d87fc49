#include "published/PricedVariants.h"

namespace stavewright::cutting::bench {

bool runUnconstrained(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        auto numbers = Numbers::of(folder + "/" + line.text("name") + ".txt");
        const auto sheet = numbers ? readSheet(*numbers, PieceFields::Value) : std::nullopt;
        if (!sheet) {
            continue;
        }
        const bool turn = line.number("rotation") == 1;
        printVariants(turn ? withTurned(*sheet) : *sheet, line,
                      line.text("name") + (turn ? " turned" : ""), turn ? "turned " : "",
                      options.secondsOr(5), table);
    }
    return true;
}

} // namespace stavewright::cutting::bench
