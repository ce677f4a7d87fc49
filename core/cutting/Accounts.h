#pragma once
// From patterns to a solution: strikes out what is made beyond the demand, makes up the panels,
// trims their last staves, and counts the cost. The one place where a plan's value is counted; the
// search only guesses.
//
//   Accounts accounts(context, models);
//   Settled settled = accounts.settle(patterns);

#include <memory>
#include <span>
#include <vector>

#include "core/cutting/BoardModel.h"
#include "core/cutting/PanelShare.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

/// What is still wanted: blanks per fixed kind, nanometres of net stave width per pool. Also what a
/// pattern yields, in the same units.
struct Demand {
    std::vector<std::int64_t> open;   ///< per kind
    std::vector<std::int64_t> staves; ///< per kind: staves that its panels may still take; 0: fixed
    /// Per kind: staves that its panels still need at least, however wide they are. Of a yield:
    /// the same as `staves`.
    std::vector<std::int64_t> fewest;

    [[nodiscard]] bool isMet() const;
    Demand& operator-=(const Demand& yield);
};

/// A solution and, in the units of Demand, what it still lacks.
struct Settled {
    Solution solution;
    Demand missing;
};

class Accounts {
  public:
    Accounts(const Context& context, const std::vector<const BoardModel*>& models);

    /// Demand less what is fixed.
    [[nodiscard]] const Demand& demand() const { return m_demand; }
    /// The same with a little more width where staves have to come out even in several panels; what
    /// plans aim at.
    [[nodiscard]] Demand asked() const;
    /// One blank more in a yield.
    void addBlank(Demand& yield, std::size_t kind, Nm width) const;
    /// What a pattern gives, in the units of Demand, not clipped.
    [[nodiscard]] Demand yieldOf(const Pattern& pattern) const;

    /// The panels of a pool with the staves that are fixed in them.
    [[nodiscard]] const std::vector<BegunPanel>& begun(std::size_t pool) const {
        return m_begun[pool];
    }
    /// Net widths of a pool's staves in the patterns.
    [[nodiscard]] std::vector<Nm> netsOf(std::span<const Pattern> patterns, std::size_t pool) const;

    [[nodiscard]] Settled settle(std::vector<Pattern> patterns) const;

    /// The same solution with fewer different widths at the rip fence where that costs nothing:
    /// staves give up the little by which their panel is wider than asked (EvenWidths.cpp).
    [[nodiscard]] Solution evened(Solution solution) const;

  private:
    struct Stave {
        std::size_t pattern = 0, section = 0, strip = 0, blank = 0;
        Nm net = 0;
    };
    class EvenWidths;
    using Panel = BegunPanel;

    /// Whole boards with staves are only dropped when asked: widths that would do in sum may not
    /// come out even in panels without them.
    void dropExcess(std::vector<Pattern>& patterns, bool withStaves) const;
    [[nodiscard]] Settled settleOnce(std::vector<Pattern> patterns, bool withStaves) const;
    void makePanels(std::vector<Pattern>& patterns, std::size_t kind, Settled& settled) const;
    [[nodiscard]] std::vector<std::vector<std::size_t>>
    shareOut(const std::vector<Stave>& staves, std::size_t kind, bool wideFirst) const;
    bool narrow(Pattern& pattern, const Stave& stave, Nm by) const;

    const Context* m_context;
    std::vector<const BoardModel*> m_models;
    Demand m_demand;
    std::vector<int> m_fixedCount;           ///< per kind
    std::vector<std::vector<Panel>> m_begun; ///< per pool: panels with their fixed staves
};

/// Removes strips without blanks, sections without strips and patterns without sections.
void removeEmpty(std::vector<Pattern>& patterns);

} // namespace stavewright::cutting
