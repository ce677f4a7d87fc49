#include "core/cutting/StackWorth.h"

#include <algorithm>

namespace stavewright::cutting {

std::map<int, std::vector<std::size_t>> kindsByLength(const Lattice& lattice) {
    const std::vector<Kind>& kinds = lattice.context().problem->kinds;
    std::map<int, std::vector<std::size_t>> byLength;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        if (lattice.kind(k).isHere) {
            byLength[lattice.leastCells(kinds[k])].push_back(k);
        }
    }
    return byLength;
}

StackWorth::StackWorth(const Lattice& lattice, const BoundPrices& prices, int mostRows)
    : m_lattice(&lattice)
    , m_prices(&prices)
    , m_worth(static_cast<std::size_t>(mostRows) * partsOfRow + 1, 0) {}

void StackWorth::add(std::size_t kind) {
    const Problem& problem = *m_lattice->context().problem;
    const Kind& wanted = problem.kinds[kind];
    const Nm kerf = std::min(problem.limits.crosscutKerf, problem.limits.stripCrosscutKerf);
    const auto along = static_cast<double>(wanted.length + kerf);
    visitWorths(wanted, *m_prices, kind, [&](Nm width, Cost worth, std::size_t) {
        // Each with the kerf above it; rounded down, so that no stack is missed.
        const auto across = static_cast<std::size_t>(std::max<Nm>(
            1, (width + problem.limits.ripKerf) * partsOfRow / m_lattice->step().across));
        const double by = static_cast<double>(worth) / along;
        for (std::size_t w = across; worth > 0 && w < m_worth.size(); ++w) {
            m_worth[w] = std::max(m_worth[w], m_worth[w - across] + by);
        }
    });
}

} // namespace stavewright::cutting
