#pragma once
// What the sections of a board are worth at most, as far as a proof has found out (BoardBound.h):
// which of the many that might be cut cannot be among the best.
//
//   SectionCeilings ceilings = bound.ceilings();
//   std::size_t index = ceilings.find(x0, x1);
//   Cost most = ceilings.at(values)[index];

#include <cstdint>
#include <limits>
#include <memory>
#include <vector>

#include "core/cutting/CarriedWorth.h"

namespace stavewright::cutting {

/// Ranges of a stretch's sections with what they were found to be worth under some prices.
struct KnownRanges {
    std::vector<std::pair<SectionRange, Cost>> ranges;
    std::unique_ptr<BoundPrices> prices;
};

class SectionCeilings {
  public:
    static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

    /// What is known of one free stretch of the board.
    void add(const Lattice& lattice, WoodByCell wood, KnownRanges&& known);

    /// Where at() tells of a section; none: nowhere.
    [[nodiscard]] std::size_t find(Nm x0, Nm x1) const;
    /// Blanks less fills, rips and the crosscuts inside the section, under other prices than those
    /// it was found under too.
    [[nodiscard]] std::vector<Cost> at(const Problem& problem, const Values& values) const;
    [[nodiscard]] bool isEmpty() const { return m_stretches.empty(); }

  private:
    struct OfStretch {
        Nm begin = 0, end = 0, step = 0;
        Nm kerf = 0; ///< that the crosscut behind a section takes
        WoodByCell wood;
        KnownRanges known;
        std::vector<std::vector<std::uint32_t>> byBegin; ///< ranges, by cell
        std::size_t first = 0;                           ///< that at() tells of
    };
    std::vector<OfStretch> m_stretches;
    std::size_t m_size = 0;
};

} // namespace stavewright::cutting
