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
    const Cost start = m_pass.startAt(v).value;
    if (m_rules.leavesOut()) {
        visitGuesses(v, [&](const GuessedRows::Strips& strips, int end, Cost gain) {
            m_pass.place(end, strips.carries, {start + gain});
            ++m_count;
        });
        return;
    }
    for (const GuessedRows::Strips& strips : m_guesses->at(v)) {
        StackWorthOnly* reached = m_pass.reached(strips.carries) + v + strips.footprint;
        for (const Cost gain : m_guesses->gains(strips)) {
            reached->value = std::max(reached->value, start + gain);
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
    m_pass.place(strip.end, strip.carries, {m_pass.startAt(strip.v).value + strip.gain});
    ++m_count;
    if (!m_onlyWorth) {
        m_strips.push_back(strip);
    }
}

void SectionStack::addWiderAndWider(StackedStrip strip, int cells, const std::vector<Cost>& gains) {
    stepUpTo(strip.v);
    const Cost start = m_pass.startAt(strip.v).value;
    const bool leavesOut = m_rules.leavesOut();
    for (const Cost gain : gains) {
        if (gain > 0 && (!leavesOut || mayCount(strip.v, strip.end, gain))) {
            m_pass.place(strip.end, strip.carries, {start + gain});
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
    return m_pass.best().value;
}

void SectionStack::run(bool exactOnly) {
    m_traced.reset(m_rules);
    m_steps += m_count + m_rules.rows;
    std::size_t i = 0;
    for (int v = 0; v < m_rules.rows; ++v) {
        const Cost start = m_traced.step();
        for (; i < m_strips.size() && m_strips[i].v == v; ++i) {
            const StackedStrip& strip = m_strips[i];
            if (!exactOnly || !strip.isGuess) {
                m_traced.place(strip.end, strip.carries,
                               {start + strip.gain, static_cast<std::uint32_t>(i)});
            }
        }
    }
}

Cost SectionStack::bestExact() {
    stepUpTo(m_rules.rows - 1); // so that all are counted
    run(true);
    return m_traced.best().value;
}

Cost SectionStack::best(std::vector<std::size_t>& traced) {
    run(false);
    const Reach best = m_traced.best();
    traced.clear();
    for (std::uint32_t by = best.by; by != nobody; by = m_traced.startAt(m_strips[by].v).by) {
        traced.push_back(by);
    }
    return best.value;
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
    return m_traced.startAt(strip.v).value + strip.gain + aboveOf(strip.end, strip.carries);
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
        const Cost lacks = least - m_beside - m_pass.startAt(v).value;
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
