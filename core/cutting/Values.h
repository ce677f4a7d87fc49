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
};

} // namespace stavewright::cutting
