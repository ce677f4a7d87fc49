#pragma once
// What the blanks that lie across a board at one place can be worth by metre of its length, by how
// much wood there is between what no blank can cover. Upper bounds: the blanks need not go on
// alike, so the worth of a section is at most the sum over its length.
//
//   StackWorth stack(lattice, prices);
//   stack.add(kind, k);                     // kinds, in any order
//   double worth = stack.of(rows);          // money by nanometre along

#include <map>
#include <vector>

#include "core/cutting/BoundPrices.h"
#include "core/cutting/Lattice.h"

namespace stavewright::cutting {

/// The kinds that a lattice has, by the cells that they take at least with their crosscut.
[[nodiscard]] std::map<int, std::vector<std::size_t>> kindsByLength(const Lattice& lattice);

class StackWorth {
  public:
    StackWorth(const Lattice& lattice, const BoundPrices& prices, int mostRows);

    /// Blanks of the kind may lie there too.
    void add(std::size_t kind);
    /// Of a stretch of so many rows across.
    [[nodiscard]] double of(int rows) const {
        return m_worth[static_cast<std::size_t>(rows) * partsOfRow];
    }

  private:
    static constexpr int partsOfRow = 4;

    const Lattice* m_lattice;
    const BoundPrices* m_prices;
    std::vector<double> m_worth; ///< by parts of a row, of all kinds so far
};

} // namespace stavewright::cutting
