#pragma once
// The rules by which strips are stacked across a section, and what a strip may stand on.

#include <limits>
#include <utility>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

struct StackRules {
    int rows = 0;    ///< strips begin in cells 0 to rows - 1
    int highest = 0; ///< no strip ends above
    Cost ripCost = 0;
    bool keepsBeside = false; ///< waste beside the strips may be worth keeping
    double offcutPerRow = 0;  ///< its worth by cell across
    int offcutRows = 0;       ///< its least width in cells
    /// Stacks that are worth less do not matter; what they hold is not taken in where that shows.
    Cost least = 0;
    /// By row: most that can be stacked from there on, beyond the last row nothing; null: unknown.
    const std::vector<Cost>* above = nullptr;

    /// Whether it can show at all that a strip does not matter.
    [[nodiscard]] bool leavesOut() const { return above != nullptr && least > 0; }
    [[nodiscard]] Cost mostAbove(int end) const {
        const auto from = static_cast<std::size_t>(end);
        return from < above->size() ? (*above)[from] : 0;
    }
    /// More than whatever is kept beside the strips is worth.
    [[nodiscard]] Cost mostBeside() const {
        return keepsBeside ? static_cast<Cost>(offcutPerRow * (rows + highest)) + 2 : 0;
    }
    /// What is kept above a stack that ends in cell `end`, where it is wide enough.
    [[nodiscard]] bool keepsAbove(int end) const { return keepsBeside && rows - end >= offcutRows; }
    [[nodiscard]] Cost keptAbove(int end) const {
        return static_cast<Cost>(offcutPerRow * (rows - end)) + 1;
    }
};

/// Of a cell that no stack ends in.
inline constexpr Cost noStack = std::numeric_limits<Cost>::min() / 4;

/// Row by row from the lowest on, the best that a strip may stand on. `Reach`: a stack's `value`,
/// and whatever else tells of it.
template <class Reach>
class StackFooting {
  public:
    /// `nothing`: no strip yet, worth 0.
    void reset(const StackRules& rules, const Reach& nothing) {
        m_below = nothing;
        m_row = -1;
        if (rules.keepsBeside) {
            m_keep.assign(static_cast<std::size_t>(rules.rows), {0, nothing});
        }
        m_nothing = nothing;
    }
    /// The last step's; -1 before the first.
    [[nodiscard]] int row() const { return m_row; }
    /// On to the next row. `touching`: the best stack that ends just there.
    [[nodiscard]] Reach step(const StackRules& rules, const Reach& touching) {
        const auto v = static_cast<std::size_t>(++m_row);
        const Cost rip = rules.ripCost;
        Reach start = m_below;
        start.value -= 2 * rip;
        if (touching.value - rip > start.value) {
            start = touching;
            start.value -= rip;
        }
        if (touching.value > m_below.value) {
            m_below = touching;
        }
        if (rules.keepsBeside) {
            // An offcut between the strip below and this one: the best less what lies below it.
            const double here = touching.value == noStack
                                    ? -1e18
                                    : static_cast<double>(touching.value) -
                                          rules.offcutPerRow * static_cast<double>(v);
            m_keep[v] = v > 0 ? m_keep[v - 1] : std::pair(0.0, m_nothing);
            if (here > m_keep[v].first) {
                m_keep[v] = {here, touching};
            }
            const int under = m_row - std::max(0, rules.offcutRows - 1);
            if (under >= 0) {
                const auto& [worth, on] = m_keep[static_cast<std::size_t>(under)];
                const Cost kept =
                    static_cast<Cost>(worth + rules.offcutPerRow * static_cast<double>(v + 1)) + 1 -
                    2 * rip;
                if (kept > start.value) {
                    start = on;
                    start.value = kept;
                }
            }
        }
        return start;
    }

  private:
    int m_row = -1;
    Reach m_nothing{};
    Reach m_below{}; ///< best of all that ends lower
    std::vector<std::pair<double, Reach>> m_keep;
};

} // namespace stavewright::cutting
