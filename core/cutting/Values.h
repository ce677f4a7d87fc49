#pragma once
// What the search currently thinks a blank is worth; the prices of the pricing problem.

#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

inline constexpr Nm nanometresPerMetre = 1'000'000'000;

struct Values {
    std::vector<Cost> each; ///< per kind: of a blank; for a pool of one stave whatever its width
    std::vector<Cost> perMetre; ///< per kind: of a metre of net stave width; 0 for fixed kinds

    [[nodiscard]] Cost of(const Kind& kind, std::size_t index, Nm width) const {
        if (!kind.isPool) {
            return each[index];
        }
        return each[index] + perMetre[index] * (width - kind.jointAllowance) / nanometresPerMetre;
    }
    friend bool operator==(const Values&, const Values&) = default;
};

/// Prices `tenths` tenths of the way from `duals` to `centre`.
[[nodiscard]] inline Values between(const Values& duals, const Values& centre, int tenths) {
    Values values = duals;
    for (std::size_t k = 0; k < values.each.size(); ++k) {
        values.each[k] = (duals.each[k] * (10 - tenths) + centre.each[k] * tenths) / 10;
        values.perMetre[k] = (duals.perMetre[k] * (10 - tenths) + centre.perMetre[k] * tenths) / 10;
    }
    return values;
}

} // namespace stavewright::cutting
