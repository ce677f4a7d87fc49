#pragma once
// Worth of the kinds under one set of values, as the bounds need it.

#include <vector>

#include "core/cutting/Values.h"

namespace stavewright::cutting {

struct BoundPrices {
    BoundPrices(const Problem& problem, const Values& values);
    std::vector<Cost> each; ///< fixed widths; pools: the most that any width is worth
    /// Pools: worth by step of width, from the least width on.
    std::vector<std::vector<Cost>> byWidth;
    /// Most that a pool's stave between two steps is worth.
    [[nodiscard]] Cost between(std::size_t pool, int first, int last) const;
};

} // namespace stavewright::cutting
