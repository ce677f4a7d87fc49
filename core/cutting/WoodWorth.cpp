#include "core/cutting/WoodWorth.h"

#include <algorithm>
#include <iterator>

#include "core/cutting/StackWorth.h"

namespace stavewright::cutting {

WoodWorth::WoodWorth(const Lattice& lattice, const UsableWood& usable, const BoundPrices& prices) {
    int mostRows = 0;
    for (const std::vector<WoodRun>& cell : usable) {
        for (const WoodRun& run : cell) {
            mostRows = std::max<int>(mostRows, run.rows);
        }
    }
    const auto along = static_cast<double>(lattice.step().along);
    StackWorth stack(lattice, prices, mostRows);
    for (const auto& [length, ofLength] : kindsByLength(lattice)) {
        for (const std::size_t k : ofLength) {
            stack.add(k);
        }
        std::vector<double> upTo(usable.size() + 1, 0);
        for (std::size_t i = 0; i < usable.size(); ++i) {
            upTo[i + 1] = upTo[i];
            for (const WoodRun& run : usable[i]) {
                upTo[i + 1] += stack.of(run.rows) * along;
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
