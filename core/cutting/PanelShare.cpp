#include "core/cutting/PanelShare.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <numeric>

namespace stavewright::cutting {

namespace {

/// Cells of one panel's programme; more would take longer than a plan is worth.
constexpr std::int64_t mostCells = 2'000'000;
/// Staves looked at to close all panels at once; and where it is asked thousands of times.
constexpr int manyLooks = 200'000;
constexpr int fewLooks = 5'000;

/// The subset of `free` that closes a panel with the least to spare; empty when none does.
class Closer {
  public:
    Closer(const Kind& kind, const std::vector<Nm>& nets)
        : m_kind(kind)
        , m_nets(nets)
        , m_step(std::max<Nm>(1, kind.step))
        , m_base(kind.width - kind.jointAllowance) {}

    std::vector<std::size_t> close(const std::vector<std::size_t>& free, const BegunPanel& begun,
                                   int usual) {
        const int most = std::min(m_kind.most - begun.staves, static_cast<int>(free.size()));
        const int fewest = std::max(0, m_kind.fewest - begun.staves);
        const Nm wanted = m_kind.netWanted - begun.net;
        // Too wide by less than a stave is trimmed afterwards.
        const Nm widest = m_kind.netMost - begun.net + m_kind.widest - m_kind.width;
        if (most <= 0 || wanted <= 0 || widestOf(free, most) < wanted) {
            return {};
        }
        // State: number of staves, steps above the least width in all. Which stave led there last.
        const auto sums = static_cast<std::size_t>(widest / m_step) + 1;
        m_last.assign((static_cast<std::size_t>(most) + 1) * sums, -1);
        const auto at = [&](int count, std::size_t sum) -> std::int16_t& {
            return m_last[static_cast<std::size_t>(count) * sums + sum];
        };
        at(0, 0) = 0;
        for (std::size_t i = 0; i < free.size(); ++i) {
            const auto steps = static_cast<std::size_t>((m_nets[free[i]] - m_base) / m_step);
            const int reach = std::min(most, static_cast<int>(i) + 1);
            for (int count = reach; count > 0; --count) {
                for (std::size_t sum = steps; sum < sums; ++sum) {
                    if (at(count, sum) < 0 && at(count - 1, sum - steps) >= 0) {
                        at(count, sum) = static_cast<std::int16_t>(i);
                    }
                }
            }
        }
        int bestCount = -1;
        std::size_t bestSum = 0;
        Nm bestNet = 0;
        for (int count = std::max(1, fewest); count <= most; ++count) {
            for (std::size_t sum = 0; sum < sums; ++sum) {
                const Nm net = count * m_base + static_cast<Nm>(sum) * m_step;
                if (at(count, sum) < 0 || net < wanted || net > widest) {
                    continue;
                }
                const bool closer =
                    bestCount < 0 || net < bestNet ||
                    (net == bestNet && std::abs(count - usual) < std::abs(bestCount - usual));
                if (closer) {
                    bestCount = count;
                    bestSum = sum;
                    bestNet = net;
                }
                break; // wider ones of this number are no closer
            }
        }
        std::vector<std::size_t> chosen;
        // A state's last stave stands after all the staves of the state before it.
        for (int count = bestCount; count > 0; --count) {
            const auto i = static_cast<std::size_t>(at(count, bestSum));
            chosen.push_back(free[i]);
            bestSum -= static_cast<std::size_t>((m_nets[free[i]] - m_base) / m_step);
        }
        return chosen;
    }

  private:
    /// So many staves together at most.
    [[nodiscard]] Nm widestOf(const std::vector<std::size_t>& free, int count) const {
        std::vector<Nm> nets;
        for (const std::size_t stave : free) {
            nets.push_back(m_nets[stave]);
        }
        std::sort(nets.begin(), nets.end(), std::greater<>());
        nets.resize(std::min(nets.size(), static_cast<std::size_t>(count)));
        return std::accumulate(nets.begin(), nets.end(), Nm{0});
    }

    const Kind& m_kind;
    const std::vector<Nm>& m_nets;
    Nm m_step;
    Nm m_base;
    std::vector<std::int16_t> m_last;
};

/// Searches for a way to close every panel at once, which taking one panel after the other misses
/// where staves are few and the width to spare is small.
class AllAtOnce {
  public:
    /// `mostOver`: how much wider than wanted a panel may become. `mostLooks`: staves that are
    /// looked at before it is given up.
    AllAtOnce(const Kind& kind, const std::vector<Nm>& nets, std::size_t panels, Nm mostOver,
              int mostLooks)
        : m_kind(kind)
        , m_nets(nets)
        , m_mostOver(mostOver)
        , m_mostLooks(mostLooks)
        , m_order(nets.size())
        , m_panels(panels)
        , m_used(nets.size(), false) {
        for (std::size_t i = 0; i < m_order.size(); ++i) {
            m_order[i] = i;
        }
        std::stable_sort(m_order.begin(), m_order.end(),
                         [&](std::size_t a, std::size_t b) { return nets[a] > nets[b]; });
    }

    /// By panel; empty when none was found within the looks.
    std::vector<std::vector<std::size_t>> find() {
        Nm spare = -static_cast<Nm>(m_panels) * m_kind.netWanted;
        for (const Nm net : m_nets) {
            spare += net;
        }
        if (spare < 0 || !nextPanel(spare)) {
            return {};
        }
        return m_shares;
    }

  private:
    bool nextPanel(Nm spare) {
        if (m_shares.size() == m_panels) {
            return true;
        }
        if (m_looks > m_mostLooks) {
            return false;
        }
        // The widest that is left begins a panel, or is left over for good.
        std::size_t first = 0;
        while (first < m_order.size() && m_used[first]) {
            ++first;
        }
        m_looks += static_cast<int>(first);
        if (first == m_order.size()) {
            return false;
        }
        m_used[first] = true;
        m_shares.push_back({m_order[first]});
        if (fill(first + 1, m_kind.netWanted - m_nets[m_order[first]], spare)) {
            return true;
        }
        m_shares.pop_back();
        const Nm net = m_nets[m_order[first]];
        const bool found = net <= spare && nextPanel(spare - net);
        m_used[first] = found;
        return found;
    }

    /// Fills the last panel, which still wants `open`, from the staves from `from` on.
    bool fill(std::size_t from, Nm open, Nm spare) {
        const auto count = static_cast<int>(m_shares.back().size());
        if (open <= 0) {
            return -open <= spare && -open <= m_mostOver && count >= m_kind.fewest &&
                   nextPanel(spare + open);
        }
        if (count >= m_kind.most) {
            return false;
        }
        const Nm limit = std::min(spare, m_mostOver);
        Nm tried = -1;
        for (std::size_t i = from; i < m_order.size() && ++m_looks <= m_mostLooks; ++i) {
            const Nm net = m_nets[m_order[i]];
            if (m_used[i] || net == tried || net - open > limit) {
                continue;
            }
            if (net * (m_kind.most - count) < open) {
                return false; // the rest is narrower still
            }
            tried = net;
            m_used[i] = true;
            m_shares.back().push_back(m_order[i]);
            if (fill(i + 1, open - net, spare)) {
                return true;
            }
            m_shares.back().pop_back();
            m_used[i] = false;
        }
        return false;
    }

    const Kind& m_kind;
    const std::vector<Nm>& m_nets;
    Nm m_mostOver;
    int m_mostLooks;
    std::vector<std::size_t> m_order; ///< by descending width
    std::size_t m_panels;
    std::vector<bool> m_used; ///< by order
    std::vector<std::vector<std::size_t>> m_shares;
    int m_looks = 0;
};

/// Cells of the programme of one panel.
std::int64_t cellsOfPanel(const Kind& kind, std::size_t staves) {
    const Nm step = std::max<Nm>(1, kind.step);
    return static_cast<std::int64_t>(staves) * kind.most *
           ((kind.netMost + kind.widest - kind.width) / step + 1);
}

/// By panel; empty where no way was found to close all of them.
std::vector<std::vector<std::size_t>> closeAll(const Kind& kind, const std::vector<Nm>& nets,
                                               const std::vector<BegunPanel>& begun,
                                               int mostLooks) {
    const bool nothingBegun =
        std::all_of(begun.begin(), begun.end(), [](const BegunPanel& p) { return p.staves == 0; });
    if (begun.size() < 2 || !nothingBegun) {
        return {};
    }
    // Too wide by less than a stave is trimmed afterwards.
    const Nm over = kind.netMost - kind.netWanted;
    for (const Nm mostOver : {over, over + kind.widest - kind.width}) {
        if (auto all = AllAtOnce(kind, nets, begun.size(), mostOver, mostLooks).find();
            !all.empty()) {
            return all;
        }
    }
    return {};
}

/// All at once within so many looks, else one panel after the other.
std::optional<std::vector<std::vector<std::size_t>>>
shareWithin(const Kind& kind, const std::vector<Nm>& nets, const std::vector<BegunPanel>& begun,
            int mostLooks) {
    if (cellsOfPanel(kind, nets.size()) > mostCells || nets.size() > 30'000) {
        return std::nullopt;
    }
    if (auto all = closeAll(kind, nets, begun, mostLooks); !all.empty()) {
        return all;
    }
    std::vector<std::vector<std::size_t>> shares(begun.size());
    std::vector<std::size_t> free(nets.size());
    for (std::size_t i = 0; i < free.size(); ++i) {
        free[i] = i;
    }
    Closer closer(kind, nets);
    for (std::size_t panel = 0; panel < begun.size(); ++panel) {
        const auto left = static_cast<int>(begun.size() - panel);
        const int usual = static_cast<int>(free.size()) / left;
        shares[panel] = closer.close(free, begun[panel], usual);
        std::erase_if(free, [&](std::size_t stave) {
            return std::find(shares[panel].begin(), shares[panel].end(), stave) !=
                   shares[panel].end();
        });
    }
    // What cannot be closed takes the widest that are left, so that as little as can be is missing.
    std::stable_sort(free.begin(), free.end(),
                     [&](std::size_t a, std::size_t b) { return nets[a] > nets[b]; });
    for (std::size_t panel = 0; panel < begun.size(); ++panel) {
        BegunPanel open = begun[panel];
        if (!shares[panel].empty() || open.net >= kind.netWanted) {
            continue;
        }
        std::erase_if(free, [&](std::size_t stave) {
            if (open.staves >= kind.most || open.net + nets[stave] > kind.netMost) {
                return false;
            }
            open.net += nets[stave];
            ++open.staves;
            shares[panel].push_back(stave);
            return true;
        });
    }
    return shares;
}

/// The staves all together make a panel that can be trimmed to its width.
bool makeOnePanel(const Kind& kind, const std::vector<Nm>& nets, const BegunPanel& begun) {
    const int staves = begun.staves + static_cast<int>(nets.size());
    const Nm net = std::accumulate(nets.begin(), nets.end(), begun.net);
    const Nm narrowest =
        begun.net + static_cast<Nm>(nets.size()) * (kind.width - kind.jointAllowance);
    return staves >= kind.fewest && staves <= kind.most && net >= kind.netWanted &&
           narrowest <= kind.netMost;
}

} // namespace

std::optional<std::vector<std::vector<std::size_t>>>
shareStaves(const Kind& kind, const std::vector<Nm>& nets, const std::vector<BegunPanel>& begun) {
    return shareWithin(kind, nets, begun, manyLooks);
}

std::optional<Nm> widthMissing(const Kind& kind, const std::vector<Nm>& nets,
                               const std::vector<BegunPanel>& begun) {
    if (begun.size() == 1 && makeOnePanel(kind, nets, begun.front())) {
        return 0; // no need to look for the staves that leave least to spare
    }
    const auto panels = static_cast<std::int64_t>(begun.size());
    if (cellsOfPanel(kind, nets.size()) * panels > mostCells) {
        // Panel after panel takes too long for what is asked thousands of times.
        return closeAll(kind, nets, begun, fewLooks).empty() ? std::nullopt : std::optional<Nm>(0);
    }
    const auto shares = shareWithin(kind, nets, begun, fewLooks);
    if (!shares) {
        return std::nullopt;
    }
    const Nm least = kind.width - kind.jointAllowance;
    Nm missing = 0;
    for (std::size_t panel = 0; panel < begun.size(); ++panel) {
        Nm net = begun[panel].net;
        Nm spare = 0;
        int staves = begun[panel].staves;
        for (const std::size_t stave : (*shares)[panel]) {
            net += nets[stave];
            spare += nets[stave] - least;
            ++staves;
        }
        if (net < kind.netWanted || staves < kind.fewest || staves > kind.most) {
            missing += std::max(std::max<Nm>(1, kind.step), kind.netWanted - net);
        } else if (net - spare > kind.netMost) {
            missing += kind.netWanted; // it cannot be trimmed to size
        }
    }
    return missing;
}

} // namespace stavewright::cutting
