#include "core/cutting/WoodAbove.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace stavewright::cutting {

WoodAbove::WoodAbove(const Lattice& lattice, const UsableWood& usable, const BoundPrices& prices)
    : m_lattice(&lattice)
    , m_usable(&usable) {
    int mostRows = 0;
    int highest = 0;
    for (const std::vector<WoodRun>& cell : usable) {
        for (const WoodRun& run : cell) {
            mostRows = std::max<int>(mostRows, run.rows);
            highest = std::max<int>(highest, run.from + run.rows);
        }
    }
    m_groups = static_cast<std::size_t>(highest / rowsOfGroup) + 1;
    StackWorth stack(lattice, prices, mostRows);
    for (const auto& [length, kinds] : kindsByLength(lattice)) {
        for (const std::size_t k : kinds) {
            stack.add(k);
        }
        m_byLength.push_back({length, stack, {}});
    }
}

void WoodAbove::addCell(const OfLength& ofLength, std::size_t cell,
                        std::vector<double>& upTo) const {
    const auto along = static_cast<double>(m_lattice->step().along);
    for (const WoodRun& run : (*m_usable)[cell]) {
        const int end = run.from + run.rows;
        for (int low = 0; low < end; low += rowsOfGroup) {
            upTo[static_cast<std::size_t>(low / rowsOfGroup)] +=
                ofLength.stack.of(end - std::max<int>(run.from, low)) * along;
        }
    }
}

void WoodAbove::make(OfLength& ofLength) const {
    std::vector<double> upTo(m_groups, 0);
    ofLength.upTo.reserve((m_usable->size() / cellsApart + 1) * m_groups);
    for (std::size_t i = 0; i <= m_usable->size(); ++i) {
        if (i % cellsApart == 0) {
            ofLength.upTo.insert(ofLength.upTo.end(), upTo.begin(), upTo.end());
        }
        if (i < m_usable->size()) {
            addCell(ofLength, i, upTo);
        }
    }
}

void WoodAbove::findUpTo(const OfLength& ofLength, int cell, std::vector<double>& upTo) const {
    const std::size_t past =
        std::min(static_cast<std::size_t>(std::max(0, cell)), m_usable->size());
    const auto known =
        ofLength.upTo.begin() + static_cast<std::ptrdiff_t>(past / cellsApart * m_groups);
    upTo.assign(known, known + static_cast<std::ptrdiff_t>(m_groups));
    for (std::size_t i = past / cellsApart * cellsApart; i < past; ++i) {
        addCell(ofLength, i, upTo);
    }
}

void WoodAbove::of(int first, int last, int length, std::vector<Cost>& worth) {
    worth.assign(m_groups * rowsOfGroup, 0);
    const auto longer =
        std::find_if(m_byLength.begin(), m_byLength.end(),
                     [&](const OfLength& ofLength) { return ofLength.cells > length; });
    if (longer == m_byLength.begin()) {
        return;
    }
    OfLength& mine = *std::prev(longer);
    if (mine.upTo.empty()) {
        make(mine);
    }
    findUpTo(mine, first, m_from);
    findUpTo(mine, last + 1, m_to);
    for (std::size_t g = 0; g < m_groups; ++g) {
        const Cost here = static_cast<Cost>(std::ceil(m_to[g] - m_from[g])) + 1;
        std::fill_n(worth.begin() + static_cast<std::ptrdiff_t>(g * rowsOfGroup), rowsOfGroup,
                    here);
    }
}

} // namespace stavewright::cutting
