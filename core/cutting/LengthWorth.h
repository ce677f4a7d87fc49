#pragma once
// What the wood of a stretch can be worth at most, by its lines along: blanks on one line lie one
// behind the other, so a clear run of it gives no more than the best lengths that fill it.
// WoodWorth says the same by places along, where blanks lie one above the other; the lesser of the
// two holds.
//
//   std::vector<ClearLine> lines = clearLines(lattice, usable);
//   LengthWorth worth(lattice, lines, prices);
//   double most = worth.of(firstCell, lastCell);   // Cost

#include <cstdint>
#include <vector>

#include "core/cutting/BoundPrices.h"
#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

/// Rows of a lattice in which blanks can cover the same cells along.
struct ClearLine {
    struct Run {
        int from = 0, to = 0; ///< cells [from, to)
    };
    Nm across = 0; ///< of these rows together
    std::vector<Run> runs;
    /// By cell along, and one more: the first run that ends behind it; runs.size() where none does.
    std::vector<std::int16_t> behind;
};

/// `usable`: of that lattice (UsableWood.h).
[[nodiscard]] std::vector<ClearLine> clearLines(const Lattice& lattice, const UsableWood& usable);

class LengthWorth {
  public:
    /// `lines`: of that lattice; they must outlive this.
    LengthWorth(const Lattice& lattice, const std::vector<ClearLine>& lines,
                const BoundPrices& prices);

    /// Of a section that takes cells [first, last] at most.
    [[nodiscard]] double of(int first, int last) const;

  private:
    /// Of a run so many cells long, by nanometre across.
    [[nodiscard]] double fill(int cells) const;

    const std::vector<ClearLine>* m_lines;
    std::vector<double> m_fill;              ///< by cells
    std::vector<std::vector<double>> m_upTo; ///< by line: of the whole runs before each
};

} // namespace stavewright::cutting
