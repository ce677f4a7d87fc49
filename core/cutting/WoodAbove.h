#pragma once
// What the wood of a section above a row can be worth at most: how much may still be stacked on a
// strip. Upper bounds by the best stack of blanks at every place along (StackWorth.h).
//
//   WoodAbove above(lattice, usable, prices);
//   above.of(first, last, length, worth);   // worth[row], Cost

#include "core/cutting/StackWorth.h"
#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

/// Not for two threads at once: what was asked for is kept.
class WoodAbove {
  public:
    /// `usable`: of that lattice. All three must outlive this.
    WoodAbove(const Lattice& lattice, const UsableWood& usable, const BoundPrices& prices);

    /// By row, of a section that takes cells [first, last] at most, with kinds that take no more
    /// than `length` cells with their crosscut (Lattice::leastCells).
    void of(int first, int last, int length, std::vector<Cost>& worth);

  private:
    static constexpr int rowsOfGroup = 4;
    static constexpr std::size_t cellsApart = 8;
    struct OfLength {
        int cells = 0; ///< that the longest of these kinds takes
        StackWorth stack;
        /// Up to every so manieth cell, then by group of rows; made when it is asked for.
        std::vector<double> upTo;
    };
    void make(OfLength& ofLength) const;
    void addCell(const OfLength& ofLength, std::size_t cell, std::vector<double>& upTo) const;
    /// By group of rows.
    void findUpTo(const OfLength& ofLength, int cell, std::vector<double>& upTo) const;

    const Lattice* m_lattice;
    const UsableWood* m_usable;
    std::size_t m_groups = 0;
    std::vector<OfLength> m_byLength; ///< ascending
    std::vector<double> m_from, m_to;
};

} // namespace stavewright::cutting
