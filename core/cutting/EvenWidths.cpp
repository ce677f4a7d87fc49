// Fewer different widths at the rip fence for a plan that stands. A width that only staves have,
// each alone in its strip, goes where all of them can be as narrow as another strip already is:
// their panels are wider than asked by more than they lose. Nothing is moved, so nothing gets
// dearer.

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "core/cutting/Accounts.h"

namespace stavewright::cutting {

class Accounts::EvenWidths {
  public:
    EvenWidths(const Accounts& accounts, const std::vector<Pattern>& patterns)
        : m_accounts(accounts)
        , m_kinds(accounts.m_context->problem->kinds)
        , m_patterns(patterns) {
        for (std::size_t p = 0; p < m_patterns.size(); ++p) {
            for (std::size_t s = 0; s < m_patterns[p].sections.size(); ++s) {
                const PlacedSection& section = m_patterns[p].sections[s];
                for (std::size_t t = 0; t < section.strips.size(); ++t) {
                    read(p, s, t, section.strips[t]);
                }
            }
        }
        for (std::size_t k = 0; k < m_kinds.size(); ++k) {
            for (std::size_t panel = 0; panel < accounts.m_begun[k].size(); ++panel) {
                m_net[{k, static_cast<int>(panel)}] += accounts.m_begun[k][panel].net;
            }
        }
    }

    /// True when something changed.
    bool even() {
        bool changed = false;
        std::vector<Nm> widths;
        for (const auto& [width, staves] : m_staves) {
            widths.push_back(width);
        }
        for (auto width = widths.rbegin(); width != widths.rend(); ++width) {
            if (m_fixed.contains(*width)) {
                continue; // it stays at the fence for others
            }
            for (auto to = std::next(width); to != widths.rend(); ++to) {
                if (m_staves.contains(*to) && narrowAll(*width, *to)) {
                    changed = true;
                    break;
                }
            }
        }
        return changed;
    }

    [[nodiscard]] std::vector<Pattern> patterns() && { return std::move(m_patterns); }

  private:
    using PanelKey = std::pair<std::size_t, int>;

    void read(std::size_t p, std::size_t s, std::size_t t, const PlacedStrip& strip) {
        const Nm width = strip.v1 - strip.v0;
        for (std::size_t b = 0; b < strip.blanks.size(); ++b) {
            const Placed& placed = strip.blanks[b];
            const auto k = static_cast<std::size_t>(placed.kind);
            const Nm own = placed.rect.width().inNanometres();
            const Nm net = own - m_kinds[k].jointAllowance;
            if (m_kinds[k].isPool) {
                m_net[{k, placed.panel}] += net;
            }
            m_staves[width];
            m_staves[own];
            if (m_kinds[k].isPool && strip.blanks.size() == 1 && own == width) {
                m_staves[own].push_back({p, s, t, b, net});
            } else {
                m_fixed.insert(width);
                m_fixed.insert(own);
            }
        }
    }

    bool narrowAll(Nm from, Nm to) {
        const std::vector<Stave>& staves = m_staves[from];
        std::vector<Pattern> patterns = m_patterns;
        std::map<PanelKey, Nm> net = m_net;
        for (const Stave& stave : staves) {
            Pattern& pattern = patterns[stave.pattern];
            const Placed& placed =
                pattern.sections[stave.section].strips[stave.strip].blanks[stave.blank];
            const auto k = static_cast<std::size_t>(placed.kind);
            Nm& left = net[{k, placed.panel}];
            left -= from - to;
            const Nm wider = to - m_kinds[k].width;
            if (wider < 0 || wider % std::max<Nm>(1, m_kinds[k].step) != 0 ||
                left < m_kinds[k].netWanted || !m_accounts.narrow(pattern, stave, from - to)) {
                return false;
            }
        }
        m_patterns = std::move(patterns);
        m_net = std::move(net);
        std::vector<Stave> moved = std::move(m_staves[from]);
        m_staves.erase(from);
        std::vector<Stave>& there = m_staves[to];
        there.insert(there.end(), moved.begin(), moved.end());
        return true;
    }

    const Accounts& m_accounts;
    const std::vector<Kind>& m_kinds;
    std::vector<Pattern> m_patterns;
    std::map<Nm, std::vector<Stave>> m_staves; ///< by width: those that may be narrowed
    std::set<Nm> m_fixed;                      ///< widths that something else has as well
    std::map<PanelKey, Nm> m_net;              ///< of each panel
};

Solution Accounts::evened(Solution solution) const {
    EvenWidths widths(*this, solution.patterns);
    if (!widths.even()) {
        return solution;
    }
    Solution evened = settle(std::move(widths).patterns()).solution;
    if (evened.value > solution.value || evened.unplaced != solution.unplaced) {
        return solution;
    }
    evened.bound = solution.bound;
    evened.work = solution.work;
    return evened;
}

} // namespace stavewright::cutting
