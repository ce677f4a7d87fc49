#include "core/cutting/StackPass.h"

#include <algorithm>

namespace stavewright::cutting {

void StackPass::reset(const StackRules& rules) {
    m_rules = rules;
    m_footing.reset(rules, {});
    for (std::vector<Cost>& reached : m_reached) {
        reached.assign(static_cast<std::size_t>(rules.highest) + 1, noStack);
    }
    m_start.resize(static_cast<std::size_t>(rules.rows));
}

Cost StackPass::touching(int end) const {
    Cost most = noStack;
    for (int carries = 0; carries <= mostCarries; ++carries) {
        const std::vector<Cost>& reached = m_reached[static_cast<std::size_t>(carries)];
        for (int below = 0; below <= std::min(carries, end); ++below) {
            most = std::max(most, reached[static_cast<std::size_t>(end - below)]);
        }
    }
    return most;
}

Cost StackPass::step() {
    const int next = m_footing.row() + 1;
    return m_start[static_cast<std::size_t>(next)] =
               m_footing.step(m_rules, {touching(next)}).value;
}

Cost StackPass::best() const {
    Cost best = 0;
    for (const std::vector<Cost>& reached : m_reached) {
        for (const Cost value : reached) {
            best = std::max(best, value);
        }
    }
    for (int end = 0; m_rules.keepsBeside && end <= m_rules.highest; ++end) {
        const Cost value = touching(end);
        if (m_rules.keepsAbove(end) && value > noStack / 2) {
            best = std::max(best, value + m_rules.keptAbove(end));
        }
    }
    return best;
}

} // namespace stavewright::cutting
