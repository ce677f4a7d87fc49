#include "published/FewestBoards.h"

namespace stavewright::cutting::bench {

bool runG2cspClass(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    std::string open; // "cl_01_020" of "cl_01_020_03": the file that holds it
    std::map<std::string, Numbers> instances;
    for (const KnownLine& line : *known) {
        const std::string name = line.text("name");
        const std::string file = name.substr(0, name.rfind('_'));
        if (file != open) {
            open = file;
            instances = namedNumbers(folder + "/" + file + ".txt");
        }
        const auto found = instances.find(name);
        const auto sheet =
            found != instances.end() ? readSheet(found->second, PieceFields::Copies) : std::nullopt;
        if (sheet) {
            printFewestBoards(*sheet, line, "fixed_lower", "fixed_status", options,
                              options.secondsOr(2), table);
        }
    }
    return true;
}

} // namespace stavewright::cutting::bench
