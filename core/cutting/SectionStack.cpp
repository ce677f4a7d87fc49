#include "core/cutting/SectionStack.h"

#include <algorithm>

#include "core/cutting/StripLabel.h"

namespace stavewright::cutting {

void SectionStack::reset(const StackRules& rules, const GuessedRows* guesses, bool onlyWorth) {
    m_rules = rules;
    m_beside = rules.mostBeside();
    m_guesses = guesses;
    m_onlyWorth = onlyWorth;
    m_count = 0;
    m_strips.clear();
    m_pass.reset(rules);
}

void SectionStack::stepUpTo(int v) {
    while (m_pass.row() < v) {
        m_pass.step();
        if (m_guesses != nullptr) {
            placeGuesses(m_pass.row());
        }
    }
}

/// Those that may count: of each its strips, the cell in which it ends, its gain, and how much
/// higher than the first of its strips it is.
template <class Visit>
void SectionStack::visitGuesses(int v, const Visit& visit) const {
    for (const GuessedRows::Strips& strips : m_guesses->at(v)) {
        int end = v + strips.footprint;
        if (m_rules.leavesOut() && !mayCount(v, end, strips.most)) {
            continue;
        }
        for (const Cost gain : m_guesses->gains(strips)) {
            if (!m_rules.leavesOut() || mayCount(v, end, gain)) {
                visit(strips, end, gain);
            }
            ++end;
        }
    }
}

void SectionStack::placeGuesses(int v) {
    const Cost start = m_pass.startAt(v);
    if (m_rules.leavesOut()) {
        visitGuesses(v, [&](const GuessedRows::Strips& strips, int end, Cost gain) {
            m_pass.place(end, strips.carries, start + gain);
            ++m_count;
        });
        return;
    }
    for (const GuessedRows::Strips& strips : m_guesses->at(v)) {
        Cost* reached = m_pass.reached(strips.carries) + v + strips.footprint;
        for (const Cost gain : m_guesses->gains(strips)) {
            const Cost value = start + gain;
            *reached = value > *reached ? value : *reached;
            ++reached;
        }
        m_count += strips.lastGain - strips.firstGain;
    }
}

void SectionStack::add(const StackedStrip& strip) {
    stepUpTo(strip.v);
    if (m_rules.leavesOut() && !mayCount(strip.v, strip.end, strip.gain)) {
        return;
    }
    m_pass.place(strip.end, strip.carries, m_pass.startAt(strip.v) + strip.gain);
    ++m_count;
    if (!m_onlyWorth) {
        m_strips.push_back(strip);
    }
}

void SectionStack::addWiderAndWider(StackedStrip strip, int cells, const std::vector<Cost>& gains) {
    stepUpTo(strip.v);
    const Cost start = m_pass.startAt(strip.v);
    const bool leavesOut = m_rules.leavesOut();
    for (const Cost gain : gains) {
        if (gain > 0 && (!leavesOut || mayCount(strip.v, strip.end, gain))) {
            m_pass.place(strip.end, strip.carries, start + gain);
            ++m_count;
            if (!m_onlyWorth) {
                strip.gain = gain;
                m_strips.push_back(strip);
            }
        }
        strip.end += cells;
        ++strip.label;
    }
}

Cost SectionStack::worth() {
    stepUpTo(m_rules.rows - 1);
    m_steps += m_count + m_rules.rows;
    return m_pass.best();
}

void SectionStack::place(std::uint32_t index) {
    const StackedStrip& strip = m_strips[index];
    const Cost value = m_start[static_cast<std::size_t>(strip.v)].value + strip.gain;
    for (int end = strip.end; end <= strip.end + strip.carries; ++end) {
        Reach& here = m_reach[static_cast<std::size_t>(end)];
        if (value > here.value) {
            here = {value, index};
        }
    }
    if (value > m_best.value) {
        m_best = {value, index};
    }
}

void SectionStack::run(bool exactOnly) {
    m_footing.reset(m_rules, {});
    m_reach.assign(static_cast<std::size_t>(m_rules.highest) + 1, {noStack, nobody});
    m_start.resize(static_cast<std::size_t>(m_rules.rows));
    m_best = {}; // nothing at all costs nothing
    m_steps += m_count + m_rules.rows;
    const auto stepUpToRow = [&](int v) {
        while (m_footing.row() < v) {
            const auto next = static_cast<std::size_t>(m_footing.row() + 1);
            m_start[next] = m_footing.step(m_rules, m_reach[next]);
        }
    };
    for (std::size_t i = 0; i < m_strips.size(); ++i) {
        const StackedStrip& strip = m_strips[i];
        stepUpToRow(strip.v);
        if (!exactOnly || !strip.isGuess) {
            place(static_cast<std::uint32_t>(i));
        }
    }
    stepUpToRow(m_rules.rows - 1);
    for (int end = 0; m_rules.keepsBeside && end <= m_rules.highest; ++end) {
        // What lies above the last strip.
        const Reach& reach = m_reach[static_cast<std::size_t>(end)];
        if (reach.value > noStack / 2 && m_rules.keepsAbove(end)) {
            const Cost value = reach.value + m_rules.keptAbove(end);
            if (value > m_best.value) {
                m_best = {value, reach.by};
            }
        }
    }
}

Cost SectionStack::bestExact() {
    stepUpTo(m_rules.rows - 1); // so that all are counted
    run(true);
    return m_best.value;
}

Cost SectionStack::best(std::vector<std::size_t>& traced) {
    run(false);
    traced.clear();
    for (std::uint32_t by = m_best.by; by != nobody;
         by = m_start[static_cast<std::size_t>(m_strips[by].v)].by) {
        traced.push_back(by);
    }
    return m_best.value;
}

void SectionStack::setAbove(int v, Cost most) {
    const auto at = static_cast<std::size_t>(v);
    m_above[0][at] = most;
    for (std::size_t carries = 1; carries < m_above.size(); ++carries) {
        m_above[carries][at] = std::max(m_above[carries - 1][at], m_above[0][at + carries]);
    }
}

void SectionStack::findAbove() {
    const Cost rip = m_rules.ripCost;
    for (std::vector<Cost>& above : m_above) {
        above.assign(static_cast<std::size_t>(m_rules.highest) + 1 + m_above.size(), 0);
    }
    Cost later = noStack; // a strip that begins above
    std::size_t next = m_strips.size();
    for (int v = m_rules.rows - 1; v >= 0; --v) {
        Cost here = noStack;
        for (; next > 0 && m_strips[next - 1].v == v; --next) {
            const StackedStrip& strip = m_strips[next - 1];
            here = std::max(here, strip.gain + aboveOf(strip.end, strip.carries));
        }
        if (m_guesses != nullptr) {
            visitGuesses(v, [&](const GuessedRows::Strips& strips, int end, Cost gain) {
                here = std::max(here, gain + aboveOf(end, strips.carries));
            });
        }
        setAbove(v, std::max({Cost{0}, here - rip, later - 2 * rip}));
        later = std::max(later, here);
    }
}

Cost SectionStack::through(const StackedStrip& strip) const {
    return m_start[static_cast<std::size_t>(strip.v)].value + strip.gain +
           aboveOf(strip.end, strip.carries);
}

void SectionStack::keepAsGoodAs(Cost least) {
    if (m_guesses == nullptr) {
        run(false);
        findAbove();
        m_steps += m_count;
        std::erase_if(m_strips,
                      [&](const StackedStrip& strip) { return through(strip) + m_beside < least; });
    } else {
        // The pass that was made while they were handed in says what they stand on.
        stepUpTo(m_rules.rows - 1);
        findAbove();
        m_steps += 2 * m_count + m_rules.rows;
        takeInGuesses(least);
        m_guesses = nullptr;
    }
    m_count = static_cast<std::int64_t>(m_strips.size());
}

void SectionStack::takeInGuesses(Cost least) {
    m_kept.clear();
    std::size_t next = 0;
    for (int v = 0; v < m_rules.rows; ++v) {
        const Cost lacks = least - m_beside - m_pass.startAt(v);
        for (; next < m_strips.size() && m_strips[next].v == v; ++next) {
            const StackedStrip& strip = m_strips[next];
            if (strip.gain + aboveOf(strip.end, strip.carries) >= lacks) {
                m_kept.push_back(strip);
            }
        }
        visitGuesses(v, [&](const GuessedRows::Strips& strips, int end, Cost gain) {
            if (gain + aboveOf(end, strips.carries) >= lacks) {
                const int higher = end - v - strips.footprint;
                m_kept.push_back({v, end, strips.carries, gain,
                                  StripLabel::ofRow(strips.height, higher).code(), true});
            }
        });
    }
    std::swap(m_strips, m_kept);
}

void SectionStack::bestGuesses(std::size_t count, std::vector<std::size_t>& indices) {
    m_ranked.clear();
    for (std::size_t i = 0; i < m_strips.size(); ++i) {
        if (m_strips[i].isGuess) {
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
