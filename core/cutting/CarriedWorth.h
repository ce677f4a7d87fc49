#pragma once
// What sections are worth at most under some prices, told for other prices: a section gains no more
// than what its wood holds of the kinds that became dearer, and when all became cheaper it is worth
// the less.
//
//   CarriedWorth carried(problem, wood, before, now);
//   Cost most = carried.of(cells, mostBefore);

#include <vector>

#include "core/cutting/BoundPrices.h"
#include "core/cutting/Lattice.h"

namespace stavewright::cutting {

/// What a stretch holds, by the cells of its lattice.
struct WoodByCell {
    std::vector<double> upTo;    ///< nm^2 that blanks can cover before each cell, and one more
    std::vector<int> leastCells; ///< by kind (Lattice::leastCells); -1: the stretch has none
    bool keepsOffcuts = false;   ///< worths hold offcuts besides, which do not follow the prices

    [[nodiscard]] static WoodByCell of(const Lattice& lattice, std::vector<double> upTo,
                                       bool keepsOffcuts);
    /// That blanks of a section of the range can cover at most.
    [[nodiscard]] double in(const SectionRange& cells) const {
        return upTo[static_cast<std::size_t>(cells.lastEnd) + 1] -
               upTo[static_cast<std::size_t>(cells.firstBegin)];
    }
};

class CarriedWorth {
  public:
    /// `wood` must outlive it.
    CarriedWorth(const Problem& problem, const WoodByCell& wood, const BoundPrices& before,
                 const BoundPrices& now);

    /// Of the sections of a range that were worth `before` at most.
    [[nodiscard]] Cost of(const SectionRange& cells, Cost before) const;

  private:
    const WoodByCell* m_wood;
    double m_ratio = 0;         ///< of any worth now to what it was, at most
    std::vector<double> m_more; ///< money by nm^2 that became dearer, by the section's cells
};

} // namespace stavewright::cutting
