#include "core/cutting/SectionStack.h"

#include <algorithm>

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

} // namespace

void SectionStack::reset(const StackRules& rules) {
    m_rules = rules;
    m_strips.clear();
}

void SectionStack::run(bool exactOnly) {
    const auto rows = static_cast<std::size_t>(m_rules.rows);
    const Cost rip = m_rules.ripCost;
    m_reach.assign(static_cast<std::size_t>(m_rules.highest) + 1, {nothing, nobody});
    m_start.assign(rows, nothing);
    m_standsOn.assign(rows, nobody);
    m_best = 0;
    m_bestBy = nobody;
    Reach below{0, nobody}; // best of all that ends lower; nothing at all costs nothing
    if (m_rules.keepsBeside) {
        m_keep.assign(rows + 1, 0);
        m_keepBy.assign(rows + 1, nobody);
    }
    std::size_t next = 0;
    for (std::size_t v = 0; v < rows; ++v) {
        const Reach touching = m_reach[v];
        Cost start = below.value - 2 * rip;
        std::uint32_t on = below.by;
        if (touching.value - rip > start) {
            start = touching.value - rip;
            on = touching.by;
        }
        if (touching.value > below.value) {
            below = touching;
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
        for (; next < m_strips.size() && m_strips[next].v == static_cast<int>(v); ++next) {
            const StackedStrip& strip = m_strips[next];
            if (exactOnly && strip.row != StackedStrip::exact) {
                continue;
            }
            const Cost value = start + strip.gain;
            const auto by = static_cast<std::uint32_t>(next);
            for (int end = strip.end; end <= strip.end + strip.carries; ++end) {
                Reach& here = m_reach[static_cast<std::size_t>(end)];
                if (value > here.value) {
                    here = {value, by};
                }
            }
            if (value > m_best) {
                m_best = value;
                m_bestBy = by;
            }
        }
    }
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

void SectionStack::keepAsGoodAs(Cost least) {
    run(false);
    const Cost rip = m_rules.ripCost;
    // Whatever is kept beside the strips is less than this.
    const Cost beside =
        m_rules.keepsBeside
            ? static_cast<Cost>(m_rules.offcutPerRow * (m_rules.rows + m_rules.highest)) + 2
            : 0;
    m_above.assign(static_cast<std::size_t>(m_rules.highest) + 2, 0);
    Cost later = nothing; // a strip that begins above
    std::size_t next = m_strips.size();
    for (int v = m_rules.rows - 1; v >= 0; --v) {
        Cost here = nothing;
        for (; next > 0 && m_strips[next - 1].v == v; --next) {
            const StackedStrip& strip = m_strips[next - 1];
            Cost above = 0;
            for (int end = strip.end; end <= strip.end + strip.carries; ++end) {
                above = std::max(above, m_above[static_cast<std::size_t>(end)]);
            }
            here = std::max(here, strip.gain + above);
        }
        m_above[static_cast<std::size_t>(v)] = std::max({Cost{0}, here - rip, later - 2 * rip});
        later = std::max(later, here);
    }
    std::erase_if(m_strips, [&](const StackedStrip& strip) {
        Cost above = 0;
        for (int end = strip.end; end <= strip.end + strip.carries; ++end) {
            above = std::max(above, m_above[static_cast<std::size_t>(end)]);
        }
        return m_start[static_cast<std::size_t>(strip.v)] + strip.gain + above + beside < least;
    });
}

} // namespace stavewright::cutting
