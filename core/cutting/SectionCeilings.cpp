#include "core/cutting/SectionCeilings.h"

#include <utility>

namespace stavewright::cutting {

void SectionCeilings::add(const Lattice& lattice, WoodByCell wood, KnownRanges&& known) {
    OfStretch stretch;
    stretch.begin = lattice.begin();
    stretch.end = lattice.end();
    stretch.step = lattice.step().along;
    stretch.kerf = lattice.context().problem->limits.crosscutKerf;
    stretch.wood = std::move(wood);
    stretch.known = std::move(known);
    stretch.byBegin.resize(static_cast<std::size_t>(lattice.cells()));
    for (std::size_t i = 0; i < stretch.known.ranges.size(); ++i) {
        const SectionRange& cells = stretch.known.ranges[i].first;
        for (int b = cells.firstBegin; b <= cells.lastBegin; ++b) {
            stretch.byBegin[static_cast<std::size_t>(b)].push_back(static_cast<std::uint32_t>(i));
        }
    }
    stretch.first = m_size;
    m_size += stretch.known.ranges.size();
    m_stretches.push_back(std::move(stretch));
}

std::size_t SectionCeilings::find(Nm x0, Nm x1) const {
    for (const OfStretch& stretch : m_stretches) {
        if (x0 < stretch.begin || x1 > stretch.end) {
            continue;
        }
        const auto begin = static_cast<std::size_t>((x0 - stretch.begin) / stretch.step);
        const auto end = static_cast<int>((x1 + stretch.kerf - stretch.begin) / stretch.step);
        if (begin >= stretch.byBegin.size()) {
            return none;
        }
        for (const std::uint32_t i : stretch.byBegin[begin]) {
            const SectionRange& cells = stretch.known.ranges[i].first;
            if (end >= cells.firstEnd && end <= cells.lastEnd) {
                return stretch.first + i;
            }
        }
    }
    return none;
}

std::vector<Cost> SectionCeilings::at(const Problem& problem, const Values& values) const {
    const BoundPrices prices(problem, values);
    std::vector<Cost> most;
    most.reserve(m_size);
    for (const OfStretch& stretch : m_stretches) {
        const CarriedWorth carried(problem, stretch.wood, *stretch.known.prices, prices);
        for (const auto& [cells, before] : stretch.known.ranges) {
            most.push_back(carried.of(cells, before));
        }
    }
    return most;
}

} // namespace stavewright::cutting
