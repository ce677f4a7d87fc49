#pragma once
// The best chain of sections on a lattice for given values.
//
// Sections are as long as one kind of blank or as a few of a kind in a row; across, each holds a
// stack of strips, one blank or several of a kind in each. Most sections are never looked into: the
// best chain is found with what is known so far of each (first by area, then by block of places,
// then at the very place), only the sections on that chain are looked into, and so on until nothing
// on the best chain is left to look into.
//
//   LatticeBest search(lattice);
//   LatticeChain chain = search.find(values, interrupt, work);

#include "core/cutting/Interrupt.h"
#include "core/cutting/Lattice.h"

namespace stavewright::cutting {

struct LatticeChain {
    Cost worth = 0; ///< of the blanks less fills and cuts
    struct Section {
        Nm x0 = 0;     ///< begins here or less than a step further on
        Nm length = 0; ///< of its longest blank
        Cost worth = 0;
    };
    std::vector<Section> sections; ///< by ascending x
};

/// Holds scratch space: one for each thread.
class LatticeBest {
  public:
    explicit LatticeBest(const Lattice& lattice);

    /// Clear of the stretches that are taken already.
    [[nodiscard]] LatticeChain find(const std::vector<Stretch>& taken, const Values& values,
                                    const Interrupt& interrupt, std::int64_t& work);

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
    };
    struct Length {
        Nm length = 0;
        int cells = 0; ///< with its crosscut
    };

    void price(const Values& values);
    [[nodiscard]] Cost worthAt(int from, int to, std::size_t lengthClass, bool byBlock);
    void collect(const Lattice::KindCells& cells, std::size_t slot, int firstCell, int lastCell,
                 bool byBlock);

    const Lattice* m_lattice;
    std::vector<Length> m_lengths; ///< distinct, ascending
    // Prices, by kind.
    std::vector<Cost> m_each;
    std::vector<std::vector<Cost>> m_byWidth; ///< free widths: worth by option
    std::vector<double> m_density;            ///< by length class: most money per nm^2
    // Scratch of one section.
    std::vector<Choice> m_choices;
    std::vector<Word> m_open; ///< by choice slot, level, words
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
    [[nodiscard]] static bool covers(const PoolPlace& a, const PoolPlace& b);
    std::vector<PoolScratch> m_pools;
    std::vector<Cost> m_stack;
};

} // namespace stavewright::cutting
