#pragma once
// Worth of the kinds under one set of values, as the bounds need it.

#include <algorithm>
#include <cstddef>
#include <vector>

#include "core/cutting/Values.h"

namespace stavewright::cutting {

struct BoundPrices {
    BoundPrices(const Problem& problem, const Values& values);
    /// Where every blank costs so much besides.
    [[nodiscard]] BoundPrices less(Cost perBlank) const;
    std::vector<Cost> each; ///< fixed widths; pools: the most that any width is worth
    /// Pools: worth by step of width, from the least width on.
    std::vector<std::vector<Cost>> byWidth;
    /// Most that a pool's stave between two steps is worth.
    [[nodiscard]] Cost between(std::size_t pool, int first, int last) const;
};

/// The widths that a kind's blanks may have, each with its worth; none below nothing.
template <class Visit>
void visitWorths(const Kind& kind, const BoundPrices& prices, std::size_t k, const Visit& visit) {
    if (!kind.isPool) {
        visit(kind.width, std::max<Cost>(0, prices.each[k]), std::size_t{0});
        return;
    }
    for (std::size_t s = 0; s < prices.byWidth[k].size(); ++s) {
        visit(kind.width + static_cast<Nm>(s) * std::max<Nm>(1, kind.step),
              std::max<Cost>(0, prices.byWidth[k][s]), s);
    }
}

} // namespace stavewright::cutting
