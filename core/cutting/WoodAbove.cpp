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

void WoodAbove::make(OfLength& ofLength) const {
    const auto along = static_cast<double>(m_lattice->step().along);
    ofLength.upTo.assign((m_usable->size() + 1) * m_groups, 0);
    for (std::size_t i = 0; i < m_usable->size(); ++i) {
        const double* before = ofLength.upTo.data() + i * m_groups;
        double* here = ofLength.upTo.data() + (i + 1) * m_groups;
        std::copy(before, before + m_groups, here);
        for (const WoodRun& run : (*m_usable)[i]) {
            const int end = run.from + run.rows;
            for (int low = 0; low < end; low += rowsOfGroup) {
                here[low / rowsOfGroup] +=
                    ofLength.stack.of(end - std::max<int>(run.from, low)) * along;
            }
        }
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
    const auto at = [&](int cell) {
        const auto place = static_cast<std::size_t>(std::max(0, cell));
        return mine.upTo.data() + std::min(place, m_usable->size()) * m_groups;
    };
    const double* from = at(first);
    const double* to = at(last + 1);
    for (std::size_t g = 0; g < m_groups; ++g) {
        const Cost here = static_cast<Cost>(std::ceil(to[g] - from[g])) + 1;
        std::fill_n(worth.begin() + static_cast<std::ptrdiff_t>(g * rowsOfGroup), rowsOfGroup,
                    here);
    }
}

} // namespace stavewright::cutting
