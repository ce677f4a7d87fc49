#pragma once
// What a section is worth at most that begins in one range of cells and ends in another. Exact for
// the lattice when both ranges are one cell, but for rows of several blanks (RowBound.h); for wider
// ranges the section may begin with the first cell and end with the last.

#include "core/cutting/RowBound.h"

namespace stavewright::cutting {

/// Sections whose low end lies in cells [firstBegin, lastBegin] and whose far crosscut ends in
/// [firstEnd, lastEnd].
struct SectionRange {
    int firstBegin = 0, lastBegin = 0;
    int firstEnd = 0, lastEnd = 0;
    [[nodiscard]] bool isOne() const { return firstBegin == lastBegin && firstEnd == lastEnd; }
};

/// Holds scratch space: one for each thread.
class SectionBound {
  public:
    SectionBound(const Lattice& lattice, const RowBound& rows);

    /// `behind`: rows that begin at the first cell or before; null: rows of several do not fit.
    /// `offcut`: worth of a square nanometre of waste that is large enough.
    [[nodiscard]] Cost most(const SectionRange& range, const BoundPrices& prices,
                            const RowBound::From* behind, double offcut);

  private:
    using Word = Lattice::Word;
    struct FixedChoice {
        const Lattice::KindCells* cells;
        Cost worth;
        bool carries;
        std::size_t open; ///< into m_open, levels * words
    };
    struct PoolPlace {
        const Word* lowOpen;
        const Word* highOpen;
        const std::int16_t *upTo, *upToFree, *upToCheap;
    };
    struct PoolChoice {
        std::size_t kind;
        const Lattice::KindCells* cells;
        Cost paid; ///< crosscut that a stave shorter than the section needs, less its offcut
        double offcutPerRow;
        int widths;
        bool carries;
        std::size_t firstPlace, lastPlace;
    };

    void addFixed(std::size_t k, int firstStart, int lastStart, Cost worth);
    void addPool(std::size_t k, int firstStart, int lastStart, Cost paid, double offcutPerRow,
                 int widths);
    [[nodiscard]] static bool covers(const PoolPlace& a, const PoolPlace& b, std::size_t words,
                                     std::size_t rows);

    const Lattice* m_lattice;
    const RowBound* m_rows;
    std::vector<FixedChoice> m_fixed;
    std::vector<PoolChoice> m_pools;
    std::vector<PoolPlace> m_places;
    std::vector<Word> m_open;
    std::vector<std::size_t> m_heights; ///< of rows that the machines allow
    std::vector<Cost> m_stack;
};

} // namespace stavewright::cutting
