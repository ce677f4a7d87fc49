#include "PricedVariants.h"

#include <chrono>

namespace stavewright::cutting::bench {

namespace {

struct Variant {
    const char* name;
    Stages stages;
    bool swap;
};
constexpr Variant variants[] = {{"two_stage_V", Stages::Two, false},
                                {"two_stage_H", Stages::Two, true},
                                {"three_stage_V", Stages::Three, false},
                                {"three_stage_H", Stages::Three, true}};

} // namespace

void printVariants(const Sheet& sheet, const KnownLine& known, const std::string& instance,
                   const std::string& group, double seconds, FamilyTable& table) {
    using Clock = std::chrono::steady_clock;
    for (const Variant& variant : variants) {
        const auto optimum = known.number(variant.name);
        if (!optimum) {
            continue;
        }
        Row row;
        row.instance = instance + " " + variant.name;
        row.boards = 1;
        const auto start = Clock::now();
        const auto found =
            bestPrice(variant.swap ? swapped(sheet) : sheet, variant.stages, seconds);
        row.total = std::chrono::duration<double>(Clock::now() - start).count();
        row.value = static_cast<double>(found.value_or(0));
        row.published = static_cast<double>(*optimum);
        row.reached = found == optimum;
        if (found && *found > *optimum) {
            row.faults.push_back("the pricing claims more than the optimum");
        }
        std::optional<double> distance;
        if (found) {
            distance = *optimum == 0 ? 0 : 1 - row.value / *row.published;
        }
        table.print(row, group + variant.name, distance);
    }
}

} // namespace stavewright::cutting::bench
