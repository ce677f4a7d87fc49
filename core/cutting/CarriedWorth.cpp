#include "core/cutting/CarriedWorth.h"

#include <algorithm>
#include <utility>

#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

WoodByCell WoodByCell::of(const Lattice& lattice, std::vector<double> upTo, bool keepsOffcuts) {
    WoodByCell wood{std::move(upTo), {}, keepsOffcuts};
    const std::vector<Kind>& kinds = lattice.context().problem->kinds;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        wood.leastCells.push_back(lattice.kind(k).isHere ? lattice.leastCells(kinds[k]) : -1);
    }
    return wood;
}

CarriedWorth::CarriedWorth(const Problem& problem, const WoodByCell& wood,
                           const BoundPrices& before, const BoundPrices& now)
    : m_wood(&wood)
    , m_more(wood.upTo.size(), 0) {
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (wood.leastCells[k] < 0) {
            continue;
        }
        const auto cells = static_cast<std::size_t>(wood.leastCells[k]);
        visitWorths(kind, now, k, [&](Nm width, Cost worth, std::size_t step) {
            const Cost then =
                std::max<Cost>(0, kind.isPool ? before.byWidth[k][step] : before.each[k]);
            if (worth > 0) {
                m_ratio = std::max(m_ratio,
                                   then > 0 ? static_cast<double>(worth) / static_cast<double>(then)
                                            : 1.0);
            }
            if (cells < m_more.size()) {
                const double dearer =
                    static_cast<double>(worth - then) / woodTaken(problem, kind, width);
                m_more[cells] = std::max(m_more[cells], dearer);
            }
        });
    }
    for (std::size_t i = 1; i < m_more.size(); ++i) {
        m_more[i] = std::max(m_more[i], m_more[i - 1]);
    }
}

Cost CarriedWorth::of(const SectionRange& cells, Cost before) const {
    const auto length = static_cast<std::size_t>(cells.lastEnd - cells.firstBegin);
    const Cost now = before + static_cast<Cost>(m_more[length] * m_wood->in(cells)) + 1;
    if (m_ratio >= 1 || m_wood->keepsOffcuts) {
        return now;
    }
    return std::min(now, static_cast<Cost>(static_cast<double>(before) * m_ratio) + 1);
}

} // namespace stavewright::cutting
