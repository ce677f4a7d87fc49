#include "published/Families.h"
#include "published/FewestBoards.h"

namespace stavewright::cutting::bench {

namespace {

/// Bars of one width: every piece is a section. Equal lengths become one kind.
std::optional<Sheet> readBars(const std::string& path) {
    auto numbers = Numbers::of(path);
    if (!numbers) {
        return std::nullopt;
    }
    constexpr std::int64_t width = 100;
    std::map<std::int64_t, std::int64_t> copies;
    Sheet sheet;
    const std::int64_t count = numbers->next();
    sheet.length = numbers->next();
    sheet.width = width;
    for (std::int64_t i = 0; i < count; ++i) {
        ++copies[numbers->next()];
    }
    for (const auto& [length, number] : copies) {
        sheet.pieces.push_back({length, width, 0, number});
    }
    return numbers->isSound() ? std::optional(sheet) : std::nullopt;
}

} // namespace

bool runBpp1d(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        const auto sheet = readBars(folder + "/" + line.text("name") + ".txt");
        const auto optimum = line.number("optimal_bins");
        if (!sheet || !optimum) {
            continue;
        }
        Row row = fewestBoards(*sheet, options, options.secondsOr(10));
        row.instance = line.text("name");
        compareWith(*optimum, row);
        table.print(row, line.text("name").substr(0, 4), excess(row));
    }
    return true;
}

} // namespace stavewright::cutting::bench
