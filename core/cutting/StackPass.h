#pragma once
// One pass upwards over strips that are stacked across a section: what stacks are worth at most by
// the cell in which they end. Whatever else is told of a stack goes along with its worth; where
// that is all one asks, nothing does.
//
//   StackPass<StackWorthOnly> pass;
//   pass.reset(rules);
//   while (pass.row() + 1 < rules.rows) {
//       Cost start = pass.step();
//       pass.place(end, carries, {start + gain});   // the strips of that row
//   }
//   Cost most = pass.best().value;

#include <algorithm>
#include <array>

#include "core/cutting/StackRules.h"

namespace stavewright::cutting {

struct StackWorthOnly {
    Cost value = 0;
    [[nodiscard]] bool isBefore(const StackWorthOnly& /*other*/) const { return false; }
};

/// `Reach`: as StackFooting has it; of two worth as much the one counts that `isBefore`.
template <class Reach>
class StackPass {
  public:
    static constexpr int mostCarries = 2;

    void reset(const StackRules& rules) {
        m_rules = rules;
        m_footing.reset(rules, {});
        Reach none;
        none.value = noStack;
        for (std::vector<Reach>& reached : m_reached) {
            reached.assign(static_cast<std::size_t>(rules.highest) + 1, none);
        }
        m_start.resize(static_cast<std::size_t>(rules.rows));
    }
    [[nodiscard]] int row() const { return m_footing.row(); }
    /// To the next row; what a strip there may stand on.
    Cost step() {
        const int next = m_footing.row() + 1;
        Reach& start = m_start[static_cast<std::size_t>(next)];
        start = m_footing.step(m_rules, touching(next));
        return start.value;
    }
    /// The same of a row that was stepped to.
    [[nodiscard]] const Reach& startAt(int v) const { return m_start[static_cast<std::size_t>(v)]; }
    /// Best stacks by the cell in which they end, of those whose strip on top carries so many more.
    [[nodiscard]] Reach* reached(int carries) {
        return m_reached[static_cast<std::size_t>(carries)].data();
    }
    /// Of those worth as much, first the one that is before the others.
    void place(int end, int carries, const Reach& reach) {
        Reach& here = reached(carries)[end];
        here = reach.value > here.value ? reach : here;
    }
    /// Once all rows were stepped to; better than nothing at all.
    [[nodiscard]] Reach best() const {
        Reach best{};
        for (const std::vector<Reach>& reached : m_reached) {
            for (const Reach& reach : reached) {
                if (reach.value > 0) {
                    improve(best, reach);
                }
            }
        }
        for (int end = 0; m_rules.keepsBeside && end <= m_rules.highest; ++end) {
            Reach reach = touching(end);
            if (m_rules.keepsAbove(end) && reach.value > noStack / 2) {
                reach.value += m_rules.keptAbove(end);
                best = reach.value > best.value ? reach : best;
            }
        }
        return best;
    }

  private:
    static void improve(Reach& best, const Reach& by) {
        if (by.value > best.value || (by.value == best.value && by.isBefore(best))) {
            best = by;
        }
    }
    [[nodiscard]] Reach touching(int end) const {
        Reach most = m_reached[0][static_cast<std::size_t>(end)];
        for (int carries = 1; carries <= mostCarries; ++carries) {
            for (int below = 0; below <= std::min(carries, end); ++below) {
                improve(most, m_reached[static_cast<std::size_t>(carries)]
                                       [static_cast<std::size_t>(end - below)]);
            }
        }
        return most;
    }

    StackRules m_rules;
    StackFooting<Reach> m_footing;
    std::array<std::vector<Reach>, mostCarries + 1> m_reached;
    std::vector<Reach> m_start; ///< by row
};

} // namespace stavewright::cutting
