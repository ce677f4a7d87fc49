#pragma once
// How demand, panels and money stand in the linear programmes: Master mixes columns in fractions,
// WholeMix whole ones, and both must mean the same by a row.

#include <algorithm>

#include "core/cutting/Accounts.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// Money in whole units of the currency and widths in metres keep the numbers near 1.
inline constexpr double unitOfMoney = 10'000;

/// Units of Demand in one unit of the kind's row.
[[nodiscard]] inline double demandUnit(const Kind& kind) {
    return kind.isPool ? static_cast<double>(nanometresPerMetre) : 1.0;
}

/// Cost of leaving out one unit of the kind's row.
[[nodiscard]] inline double costLeftOut(const Kind& kind) {
    const auto penalty = static_cast<double>(kind.penaltyUnplaced);
    return kind.isPool
               ? penalty * demandUnit(kind) / static_cast<double>(std::max<Nm>(1, kind.netWanted))
               : penalty;
}

/// Staves that one unit of a pool's row stands for when it is left out: a whole panel stands for
/// the fewest staves it could have.
[[nodiscard]] inline double stavesLeftOut(const Kind& pool) {
    return static_cast<double>(fewestStaves(pool)) * demandUnit(pool) /
           static_cast<double>(std::max<Nm>(1, pool.netWanted));
}

/// Bounds of a pool's row of staves.
struct StaveRow {
    double fewest = 0;
    double most = 0;
};
[[nodiscard]] inline StaveRow staveRow(const Demand& open, std::size_t pool) {
    const std::int64_t most = std::max<std::int64_t>(0, open.staves[pool]);
    return {static_cast<double>(std::clamp<std::int64_t>(open.fewest[pool], 0, most)),
            static_cast<double>(most)};
}

} // namespace stavewright::cutting
