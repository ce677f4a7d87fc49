#pragma once
// What one section is worth on a lattice under given values: a stack of strips across, one blank or
// several of a kind in each. A guess for the first plan, at one place or at a block of them at
// once.
//
//   LatticeSection section(lattice);
//   section.price(values);
//   Cost worth = section.worthAt(from, to, length, byBlock);

#include <cstdint>
#include <vector>

#include "core/cutting/Lattice.h"

namespace stavewright::cutting {

/// Holds scratch space: one for each thread.
class LatticeSection {
  public:
    explicit LatticeSection(const Lattice& lattice)
        : m_lattice(&lattice) {}

    /// Until it is called again.
    void price(const Values& values);
    /// Most money per square nanometre that a blank of up to a length brings.
    [[nodiscard]] double density(Nm length) const;
    /// Of a section so long that begins in one of the cells; `byBlock`: as if each of them lent
    /// what its block has.
    [[nodiscard]] Cost worthAt(int from, int to, Nm length, bool byBlock);

  private:
    using Word = Lattice::Word;
    /// What a kind offers in one section: where across it may lie.
    struct Choice {
        std::size_t kind = 0;
        const Lattice::KindCells* cells = nullptr;
        Cost worth = 0;         ///< fixed widths
        int widest = 0;         ///< options of a free width that the machines allow
        int lastStart = 0;      ///< cell
        bool mayRepeat = false; ///< the section is long enough for several in a row
        bool isFlush = false;
        Cost rowWorth = 0; ///< of those that may repeat, at the row that was asked for last
        int rowAt = -1;    ///< that row
    };
    /// Where a strip may begin.
    struct Begin {
        int v = 0;
        Cost worth = 0;     ///< of all below it
        bool fresh = false; ///< worth more than at the row below
        int from = 0;       ///< cell of the section
    };
    /// A free width in one pose and at one place, or block of places, along the section.
    struct PoolPlace {
        std::vector<Word> lowOpen, highOpen;
        std::vector<std::int16_t> upTo;
        std::vector<int> shut; ///< highs that are shut below a row
    };
    struct PoolScratch {
        std::vector<PoolPlace> places; ///< the first `count` are in use
        std::size_t count = 0;
    };

    /// Fills m_choices; the cells of the stack that the widest of them needs above its last row.
    int choose(int from, int to, Nm length, bool byBlock);
    void collect(const Lattice::KindCells& cells, std::size_t slot, int firstCell, int lastCell,
                 bool byBlock);
    [[nodiscard]] static bool covers(const PoolPlace& a, const PoolPlace& b);
    void findChanges();
    void stackFixed(Choice& choice, std::size_t slot, const Begin& begin);
    void stackRow(Choice& choice, const Begin& begin);
    void stackPool(const Choice& choice, const PoolPlace& place, const Begin& begin);
    void reach(int row, Cost worth) {
        Cost& reached = m_stack[static_cast<std::size_t>(row)];
        reached = std::max(reached, worth);
    }
    [[nodiscard]] const Word* openOf(std::size_t slot, int level) const {
        return m_open.data() + (slot * Lattice::levels + static_cast<std::size_t>(level)) *
                                   static_cast<std::size_t>(m_lattice->words());
    }

    const Lattice* m_lattice;
    // Prices, by kind.
    std::vector<Cost> m_each;
    std::vector<std::vector<Cost>> m_byWidth; ///< free widths: worth by option
    std::vector<double> m_density;            ///< money per nm^2
    // Scratch of one section.
    std::vector<Choice> m_choices;
    std::vector<Word> m_open;                 ///< by choice slot, level, words
    std::vector<std::size_t> m_fixed, m_free; ///< slots of fixed and free widths
    /// By row: fixed widths (as bits, slots modulo 64) with a place there that the row below has
    /// not, or with several in a row.
    std::vector<Word> m_changed;
    std::vector<PoolScratch> m_pools;
    std::vector<Cost> m_stack;
};

} // namespace stavewright::cutting
