#include "core/cutting/FreeWidths.h"

#include <algorithm>
#include <utility>

namespace stavewright::cutting {

void FreeWidths::highest(std::vector<Bar>& bars, const std::vector<Bar>& lowBars, Nm top, Nm step,
                         std::span<std::int16_t> byCell) {
    std::sort(bars.begin(), bars.end(),
              [](const Bar& a, const Bar& b) { return a.below < b.below; });
    m_ceilings.assign(bars.size() + 1, top);
    for (std::size_t i = bars.size(); i-- > 0;) {
        m_ceilings[i] = std::min(m_ceilings[i + 1], bars[i].above);
    }
    // A stave reaches as far up as the low edge allows that is the lowest: at the cell's own edge,
    // or where it has just cleared something.
    m_stands.clear();
    for (const std::vector<Bar>* all : {&std::as_const(bars), &lowBars}) {
        for (const Bar& bar : *all) {
            m_stands.push_back(bar.below);
        }
    }
    std::sort(m_stands.begin(), m_stands.end());
    auto stand = m_stands.begin();
    std::size_t first = 0; // bar that a low edge has not cleared
    Nm edge = 0;
    for (std::size_t cell = 0; cell < byCell.size(); ++cell, edge += step) {
        Nm widest = 0;
        const auto tryAt = [&](Nm low) {
            while (first < bars.size() && bars[first].below <= low) {
                ++first;
            }
            const bool isBarred = std::any_of(lowBars.begin(), lowBars.end(), [&](const Bar& bar) {
                return bar.above < low && low < bar.below;
            });
            widest = isBarred ? widest : std::max(widest, m_ceilings[first] - low);
        };
        tryAt(edge);
        while (stand != m_stands.end() && *stand <= edge) {
            ++stand;
        }
        for (; stand != m_stands.end() && *stand < edge + step; ++stand) {
            tryAt(*stand);
        }
        byCell[cell] = static_cast<std::int16_t>(
            std::min(cell + static_cast<std::size_t>(widest / step), byCell.size() - 1));
    }
}

} // namespace stavewright::cutting
