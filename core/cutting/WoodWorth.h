#pragma once
// What the wood of a stretch can be worth at most, by cell along: at every place the best stack of
// blanks that fits between what no blank can cover. Short sections hold only short kinds, so it is
// known by the length of the section. Blanks need not go on alike from cell to cell, so this is an
// upper bound, cheap enough to be asked for every section.
//
//   WoodWorth worth(lattice, usableWood(lattice), prices);
//   double most = worth.of(firstCell, lastCell, length);   // Cost

#include <vector>

#include "core/cutting/BoundPrices.h"
#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

class WoodWorth {
  public:
    /// `usable`: of that lattice (UsableWood.h).
    WoodWorth(const Lattice& lattice, const UsableWood& usable, const BoundPrices& prices);

    /// Of a section that takes cells [first, last] at most; only kinds that take no more than
    /// `length` cells with their crosscut (Lattice::leastCells) can lie in it.
    [[nodiscard]] double of(int first, int last, int length) const;

  private:
    struct OfLength {
        int cells = 0;            ///< that the longest of these kinds takes
        std::vector<double> upTo; ///< a cell
    };
    std::vector<OfLength> m_byLength; ///< ascending
};

} // namespace stavewright::cutting
