#include "core/cutting/SectionStack.h"

#include <algorithm>

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

} // namespace

void SectionStack::reset(const StackRules& rules) {
    m_rules = rules;
    m_strips.clear();
    begin();
}

Cost SectionStack::mostBeside() const {
    return m_rules.keepsBeside
               ? static_cast<Cost>(m_rules.offcutPerRow * (m_rules.rows + m_rules.highest)) + 2
               : 0;
}

bool SectionStack::mayCount(int v, int end, Cost gain) {
    if (m_rules.above == nullptr || m_rules.least <= 0) {
        return true;
    }
    stepUpTo(v);
    const auto from = static_cast<std::size_t>(end);
    const Cost above = from < m_rules.above->size() ? (*m_rules.above)[from] : 0;
    return m_start[static_cast<std::size_t>(v)] + gain + above + mostBeside() >= m_rules.least;
}

void SectionStack::add(const StackedStrip& strip) {
    if (!mayCount(strip.v, strip.end, strip.gain)) {
        return;
    }
    m_strips.push_back(strip);
    if (m_steppedTo >= strip.v) {
        place(static_cast<std::uint32_t>(m_strips.size() - 1));
    }
}

void SectionStack::begin() {
    const auto rows = static_cast<std::size_t>(m_rules.rows);
    m_reach.assign(static_cast<std::size_t>(m_rules.highest) + 1, {nothing, nobody});
    m_start.assign(rows, nothing);
    m_standsOn.assign(rows, nobody);
    m_steppedTo = -1;
    m_below = {0, nobody}; // nothing at all costs nothing
    m_best = 0;
    m_bestBy = nobody;
    if (m_rules.keepsBeside) {
        m_keep.assign(rows + 1, 0);
        m_keepBy.assign(rows + 1, nobody);
    }
}

void SectionStack::stepUpTo(int upTo) {
    const Cost rip = m_rules.ripCost;
    while (m_steppedTo < upTo) {
        const auto v = static_cast<std::size_t>(++m_steppedTo);
        const Reach touching = m_reach[v];
        Cost start = m_below.value - 2 * rip;
        std::uint32_t on = m_below.by;
        if (touching.value - rip > start) {
            start = touching.value - rip;
            on = touching.by;
        }
        if (touching.value > m_below.value) {
            m_below = touching;
        }
        if (m_rules.keepsBeside) {
            // An offcut between the strip below and this one: the best less what lies below it.
            const double here = touching.value == nothing
                                    ? -1e18
                                    : static_cast<double>(touching.value) -
                                          m_rules.offcutPerRow * static_cast<double>(v);
            const double before = v > 0 ? m_keep[v - 1] : 0.0;
            m_keep[v] = std::max(before, here);
            m_keepBy[v] = here > before ? touching.by : v > 0 ? m_keepBy[v - 1] : nobody;
            const int under = static_cast<int>(v) - std::max(0, m_rules.offcutRows - 1);
            if (under >= 0) {
                const Cost kept =
                    static_cast<Cost>(m_keep[static_cast<std::size_t>(under)] +
                                      m_rules.offcutPerRow * static_cast<double>(v + 1)) +
                    1 - 2 * rip;
                if (kept > start) {
                    start = kept;
                    on = m_keepBy[static_cast<std::size_t>(under)];
                }
            }
        }
        m_start[v] = start;
        m_standsOn[v] = on;
    }
}

void SectionStack::place(std::uint32_t index) {
    const StackedStrip& strip = m_strips[index];
    const Cost value = m_start[static_cast<std::size_t>(strip.v)] + strip.gain;
    for (int end = strip.end; end <= strip.end + strip.carries; ++end) {
        Reach& here = m_reach[static_cast<std::size_t>(end)];
        if (value > here.value) {
            here = {value, index};
        }
    }
    if (value > m_best) {
        m_best = value;
        m_bestBy = index;
    }
}

void SectionStack::run(bool exactOnly) {
    begin();
    m_steps += static_cast<std::int64_t>(m_strips.size()) + m_rules.rows;
    for (std::size_t i = 0; i < m_strips.size(); ++i) {
        const StackedStrip& strip = m_strips[i];
        stepUpTo(strip.v);
        if (!exactOnly || strip.row == StackedStrip::exact) {
            place(static_cast<std::uint32_t>(i));
        }
    }
    stepUpTo(m_rules.rows - 1);
    if (m_rules.keepsBeside) {
        // What lies above the last strip.
        for (int v = 0; v <= m_rules.highest; ++v) {
            const Reach& reach = m_reach[static_cast<std::size_t>(v)];
            if (reach.value > nothing / 2 && m_rules.rows - v >= m_rules.offcutRows) {
                const Cost value =
                    reach.value + static_cast<Cost>(m_rules.offcutPerRow * (m_rules.rows - v)) + 1;
                if (value > m_best) {
                    m_best = value;
                    m_bestBy = reach.by;
                }
            }
        }
    }
}

Cost SectionStack::bestExact() {
    run(true);
    return m_best;
}

Cost SectionStack::best(std::vector<std::size_t>& traced) {
    run(false);
    traced.clear();
    for (std::uint32_t by = m_bestBy; by != nobody;
         by = m_standsOn[static_cast<std::size_t>(m_strips[by].v)]) {
        traced.push_back(by);
    }
    return m_best;
}

void SectionStack::findAbove() {
    run(false);
    m_steps += static_cast<std::int64_t>(m_strips.size());
    const Cost rip = m_rules.ripCost;
    m_above.assign(static_cast<std::size_t>(m_rules.highest) + 2, 0);
    Cost later = nothing; // a strip that begins above
    std::size_t next = m_strips.size();
    for (int v = m_rules.rows - 1; v >= 0; --v) {
        Cost here = nothing;
        for (; next > 0 && m_strips[next - 1].v == v; --next) {
            const StackedStrip& strip = m_strips[next - 1];
            here = std::max(here, strip.gain + aboveOf(strip));
        }
        m_above[static_cast<std::size_t>(v)] = std::max({Cost{0}, here - rip, later - 2 * rip});
        later = std::max(later, here);
    }
}

Cost SectionStack::aboveOf(const StackedStrip& strip) const {
    Cost above = 0;
    for (int end = strip.end; end <= strip.end + strip.carries; ++end) {
        above = std::max(above, m_above[static_cast<std::size_t>(end)]);
    }
    return above;
}

Cost SectionStack::through(const StackedStrip& strip) const {
    return m_start[static_cast<std::size_t>(strip.v)] + strip.gain + aboveOf(strip);
}

void SectionStack::keepAsGoodAs(Cost least) {
    findAbove();
    const Cost beside = mostBeside();
    std::erase_if(m_strips,
                  [&](const StackedStrip& strip) { return through(strip) + beside < least; });
}

void SectionStack::bestGuesses(std::size_t count, std::vector<std::size_t>& indices) {
    m_ranked.clear();
    for (std::size_t i = 0; i < m_strips.size(); ++i) {
        if (m_strips[i].row != StackedStrip::exact) {
            m_ranked.emplace_back(-through(m_strips[i]), i);
        }
    }
    count = std::min(count, m_ranked.size());
    std::nth_element(m_ranked.begin(), m_ranked.begin() + static_cast<std::ptrdiff_t>(count),
                     m_ranked.end());
    indices.clear();
    for (std::size_t i = 0; i < count; ++i) {
        indices.push_back(m_ranked[i].second);
    }
}

} // namespace stavewright::cutting
