#pragma once
// The best arrangement by dynamic programming over sets of staves, for the terms that add up by
// place, neighbours and set; and on top of it an enumeration in which those exact figures are the
// bound, so that terms that do not add up (the panel's cup, knots crowded across a stave between)
// can be proved as well.
//
// For each set of staves placed so far and the last of them in its pose the table holds the least
// that the rest can cost. With n staves in a panel that is n 4 2^n figures.

#include <cstdint>
#include <optional>
#include <stop_token>

#include "core/glueup/Scoring.h"

namespace stavewright::glueup {

/// Most staves in one panel for which the table is made.
inline constexpr int mostExactStaves = 12;

class CostToGo {
  public:
    /// For the panel's planing direction `direction`, +1 or -1. Each panel may have at most
    /// mostExactStaves staves.
    CostToGo(const Scoring& scoring, int direction);

    /// Least that adding terms cost from the start.
    [[nodiscard]] Cost least() const { return m_least; }
    /// Least that everything after costs, the seam behind `last` included, when the set `placed` of
    /// the panel's staves (bit i: its i-th) stands and `last` is the last of it; `never` when the
    /// locks leave no way.
    [[nodiscard]] Cost after(int panel, std::uint32_t placed, Placed last) const;
    /// An arrangement of cost least(); none when locks and rules leave none.
    [[nodiscard]] std::optional<Order> best() const;

    [[nodiscard]] int direction() const { return m_direction; }
    /// What it costs to put `next` behind what stands; `last` is the one before, if any. Of terms
    /// that add up.
    [[nodiscard]] Cost step(int place, std::optional<Placed> last, Length fromNear,
                            Placed next) const;

    static constexpr Cost never = std::int64_t{1} << 60;

  private:
    void fill(int panel);
    [[nodiscard]] std::size_t index(int panel, std::uint32_t placed, Placed last) const;
    [[nodiscard]] Cost entering(int panel, std::optional<Placed> before) const;

    const Scoring* m_scoring;
    int m_direction;
    std::vector<std::vector<Cost>> m_after; ///< by panel
    Cost m_least = never;
};

struct ExactResult {
    Order order;
    Cost total = 0;
    bool isProved = false;   ///< of all terms, the ones that do not add up included
    std::int64_t looked = 0; ///< arrangements in part that were looked at
};

/// Improves on `begin` (an arrangement that is allowed) until nothing better exists, `work` partial
/// arrangements were looked at, or a stop is asked for. Only what costs less than `below` is of
/// interest: where nothing does, the total is `below`.
[[nodiscard]] ExactResult exactOrder(const Scoring& scoring, const Order& begin, std::int64_t work,
                                     const std::stop_token& stop = {},
                                     Cost below = CostToGo::never);

} // namespace stavewright::glueup
