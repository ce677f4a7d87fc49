#include "core/cutting/WoodWorth.h"

#include <algorithm>
#include <iterator>
#include <map>

#include "core/cutting/StackWorth.h"

namespace stavewright::cutting {

WoodWorth::WoodWorth(const Lattice& lattice, const std::vector<std::vector<std::int16_t>>& usable,
                     const BoundPrices& prices) {
    const std::vector<Kind>& kinds = lattice.context().problem->kinds;
    std::map<int, std::vector<std::size_t>> byLength;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        if (lattice.kind(k).isHere) {
            byLength[lattice.leastCells(kinds[k])].push_back(k);
        }
    }
    int mostRows = 0;
    for (const std::vector<std::int16_t>& cell : usable) {
        for (const std::int16_t rows : cell) {
            mostRows = std::max<int>(mostRows, rows);
        }
    }
    const auto along = static_cast<double>(lattice.step().along);
    StackWorth stack(lattice, prices, mostRows);
    for (const auto& [length, ofLength] : byLength) {
        for (const std::size_t k : ofLength) {
            stack.add(k);
        }
        std::vector<double> upTo(usable.size() + 1, 0);
        for (std::size_t i = 0; i < usable.size(); ++i) {
            upTo[i + 1] = upTo[i];
            for (const std::int16_t rows : usable[i]) {
                upTo[i + 1] += stack.of(rows) * along;
            }
        }
        m_byLength.push_back({length, std::move(upTo)});
    }
}

double WoodWorth::of(int first, int last, int length) const {
    const auto longer =
        std::find_if(m_byLength.begin(), m_byLength.end(),
                     [&](const OfLength& ofLength) { return ofLength.cells > length; });
    if (longer == m_byLength.begin()) {
        return 0;
    }
    const std::vector<double>& upTo = std::prev(longer)->upTo;
    const auto end = static_cast<std::size_t>(std::max(0, last + 1));
    const auto begin = static_cast<std::size_t>(std::max(0, first));
    return upTo[std::min(end, upTo.size() - 1)] - upTo[std::min(begin, upTo.size() - 1)];
}

} // namespace stavewright::cutting
