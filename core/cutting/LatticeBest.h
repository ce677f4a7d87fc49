#pragma once
// The best chain of sections on a lattice for given values.
//
// Sections are as long as one kind of blank or as a few of a kind in a row. Most sections are never
// looked into: the best chain is found with what is known so far of each (first by area, then by
// block of places, then at the very place), only the sections on that chain are looked into, and so
// on until nothing on the best chain is left to look into.
//
//   LatticeBest search(lattice, known);
//   LatticeChain chain = search.find(taken, values, interrupt, work);

#include <vector>

#include "core/cutting/Interrupt.h"
#include "core/cutting/LatticeKnown.h"
#include "core/cutting/LatticeSection.h"

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
    LatticeBest(const Lattice& lattice, LatticeKnown& known);

    /// Clear of the stretches that are taken already.
    [[nodiscard]] LatticeChain find(const std::vector<Stretch>& taken, const Values& values,
                                    const Interrupt& interrupt, std::int64_t& work);

  private:
    struct Length {
        Nm length = 0;
        int cells = 0;                  ///< with its crosscut
        std::vector<std::size_t> kinds; ///< of whose blanks it holds one or more, to its ends
    };

    using How = LatticeKnown::How;
    [[nodiscard]] std::size_t indexOf(std::size_t lengthClass, int cell) const {
        return lengthClass * static_cast<std::size_t>(m_lattice->cells()) +
               static_cast<std::size_t>(cell);
    }
    /// In m_worth.
    [[nodiscard]] std::size_t placeOf(std::size_t lengthClass, int cell) const {
        return static_cast<std::size_t>(cell + m_lengths[lengthClass].cells) *
                   m_longestFirst.size() +
               m_placeOf[lengthClass];
    }
    /// All lengths; where the kinds are many, those of kinds that are worth something.
    void takeLengths(const Values& values);
    /// With what is known and what the wood alone tells.
    void begin(const std::vector<Stretch>& taken);
    /// Best chains up to every place from `first` on; up to those before it they are as they were.
    void reachFrom(int first);
    /// The first cell whose sections may be worth less than was known.
    int lookInto(std::size_t lengthClass, int cell);

    const Lattice* m_lattice;
    LatticeKnown* m_known;
    LatticeSection m_section;
    bool m_hasManyKinds;
    std::vector<Length> m_lengths;           ///< distinct, ascending
    std::vector<std::size_t> m_longestFirst; ///< those that are taken, by cells
    std::vector<std::size_t> m_placeOf;      ///< by length, in m_longestFirst, or behind its end
    std::vector<int> m_cellsBack;            ///< by place in m_longestFirst
    LatticeKnown::Asked m_asked;
    /// What a section is worth at most beside what is taken, by the place where it ends, then by
    /// place in m_longestFirst.
    std::vector<Cost> m_worth;
    // By place along.
    std::vector<Cost> m_apart; ///< best chain that ends here or before
    /// Of all before a section that begins here, from so many places before the first on as the
    /// longest takes.
    std::vector<Cost> m_begin;
    std::vector<char> m_isJoined;         ///< that section lies against the one before
    std::vector<std::size_t> m_cameTouch; ///< length of the section that ends just here
    std::vector<int> m_cameFrom;
    std::vector<int> m_cameApart; ///< place where the best of m_apart ends
};

} // namespace stavewright::cutting
