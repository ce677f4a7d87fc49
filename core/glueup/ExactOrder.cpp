#include "core/glueup/ExactOrder.h"

#include <algorithm>
#include <bit>
#include <cassert>

namespace stavewright::glueup {

namespace {

Length widthOfSet(const Scoring& scoring, int panel, std::uint32_t placed) {
    Length width;
    for (std::uint32_t rest = placed; rest != 0; rest &= rest - 1) {
        width += scoring.widthOf(scoring.startOf(panel) + std::countr_zero(rest));
    }
    return width;
}

} // namespace

CostToGo::CostToGo(const Scoring& scoring, int direction)
    : m_scoring(&scoring)
    , m_direction(direction)
    , m_after(static_cast<std::size_t>(scoring.panels())) {
    for (int panel = scoring.panels() - 1; panel >= 0; --panel) {
        assert(scoring.endOf(panel) - scoring.startOf(panel) <= mostExactStaves);
        fill(panel);
    }
    m_least = entering(0, std::nullopt);
}

std::size_t CostToGo::index(int panel, std::uint32_t placed, Placed last) const {
    const auto staves =
        static_cast<std::size_t>(m_scoring->endOf(panel) - m_scoring->startOf(panel));
    return (placed * staves + static_cast<std::size_t>(last.stave - m_scoring->startOf(panel))) *
               4 +
           static_cast<std::size_t>(last.pose);
}

Cost CostToGo::after(int panel, std::uint32_t placed, Placed last) const {
    return m_after[static_cast<std::size_t>(panel)][index(panel, placed, last)];
}

Cost CostToGo::step(int place, std::optional<Placed> last, Length fromNear, Placed next) const {
    const Scoring& scoring = *m_scoring;
    const int panel = scoring.panelOf(place);
    Cost cost = scoring.alone(next, m_direction);
    if (place == scoring.startOf(panel)) {
        cost += scoring.outer(next, Side::Near);
        if (last) {
            cost += scoring.gap(*last, next);
        }
    } else {
        cost += scoring.joint(*last, next) + scoring.seam(panel, fromNear);
    }
    if (place + 1 == scoring.endOf(panel)) {
        cost += scoring.outer(next, Side::Far);
    }
    return cost;
}

/// Least from the panel's first place on, what stands before it being another panel's last stave.
Cost CostToGo::entering(int panel, std::optional<Placed> before) const {
    const int start = m_scoring->startOf(panel);
    const int staves = m_scoring->endOf(panel) - start;
    Cost least = staves == 0 ? 0 : never;
    for (int i = 0; i < staves; ++i) {
        for (int pose = 0; pose < 4; ++pose) {
            const Placed next{start + i, pose};
            if (m_scoring->mayStand(next, start)) {
                least = std::min(least, step(start, before, {}, next) +
                                            after(panel, std::uint32_t{1} << i, next));
            }
        }
    }
    return std::min(least, never);
}

void CostToGo::fill(int panel) {
    const Scoring& scoring = *m_scoring;
    const int start = scoring.startOf(panel);
    const int staves = scoring.endOf(panel) - start;
    const std::uint32_t full = (std::uint32_t{1} << staves) - 1;
    std::vector<Cost>& table = m_after[static_cast<std::size_t>(panel)];
    table.assign((static_cast<std::size_t>(full) + 1) * static_cast<std::size_t>(staves) * 4,
                 never);
    // What does not hang on the neighbour, by stave and pose.
    std::vector<Cost> alone(static_cast<std::size_t>(staves) * 4);
    for (std::uint32_t placed = full; placed != 0; --placed) {
        const int place = start + std::popcount(placed);
        const Length fromNear = widthOfSet(scoring, panel, placed);
        const Cost seam = placed == full ? 0 : scoring.seam(panel, fromNear);
        const bool nextIsLast = place + 1 == scoring.endOf(panel);
        std::vector<Placed> nexts;
        for (int i = 0; i < staves; ++i) {
            for (int pose = 0; (placed >> i & 1) == 0 && pose < 4; ++pose) {
                const Placed next{start + i, pose};
                const Cost rest = after(panel, placed | std::uint32_t{1} << i, next);
                if (rest < never && scoring.mayStand(next, place)) {
                    alone[nexts.size()] = rest + seam + scoring.alone(next, m_direction) +
                                          (nextIsLast ? scoring.outer(next, Side::Far) : 0);
                    nexts.push_back(next);
                }
            }
        }
        for (std::uint32_t in = placed; in != 0; in &= in - 1) {
            for (int pose = 0; pose < 4; ++pose) {
                const Placed last{start + std::countr_zero(in), pose};
                if (!scoring.mayStand(last, place - 1)) {
                    continue;
                }
                Cost least = never;
                if (placed == full) {
                    least = panel + 1 < scoring.panels() ? entering(panel + 1, last) : 0;
                }
                for (std::size_t k = 0; k < nexts.size(); ++k) {
                    least = std::min(least, alone[k] + scoring.joint(last, nexts[k]));
                }
                table[index(panel, placed, last)] = least;
            }
        }
    }
}

std::optional<Order> CostToGo::best() const {
    if (m_least >= never) {
        return std::nullopt;
    }
    const Scoring& scoring = *m_scoring;
    Order order;
    std::optional<Placed> last;
    std::uint32_t placed = 0;
    Length fromNear;
    for (int place = 0; place < scoring.staves(); ++place) {
        const int panel = scoring.panelOf(place);
        if (place == scoring.startOf(panel)) {
            placed = 0;
            fromNear = {};
        }
        Cost least = never;
        Placed chosen;
        for (int stave = scoring.startOf(panel); stave < scoring.endOf(panel); ++stave) {
            const std::uint32_t bit = std::uint32_t{1} << (stave - scoring.startOf(panel));
            for (int pose = 0; (placed & bit) == 0 && pose < 4; ++pose) {
                const Placed next{stave, pose};
                const Cost rest = after(panel, placed | bit, next);
                if (rest < never && scoring.mayStand(next, place)) {
                    const Cost cost = rest + step(place, last, fromNear, next);
                    if (cost < least) {
                        least = cost;
                        chosen = next;
                    }
                }
            }
        }
        order.push_back(chosen);
        placed |= std::uint32_t{1} << (chosen.stave - scoring.startOf(panel));
        fromNear += scoring.widthOf(chosen.stave);
        last = chosen;
    }
    return order;
}

namespace {

/// Depth first over arrangements, the cheapest continuation first; a branch is left when what it
/// has cost, what it must still cost and half the cup that stands in it already reach the best.
class Enumeration {
  public:
    Enumeration(const Scoring& scoring, const CostToGo& toGo, ExactResult& result,
                std::int64_t work, const std::stop_token& stop)
        : m_scoring(scoring)
        , m_toGo(toGo)
        , m_result(result)
        , m_work(work)
        , m_stop(stop) {}

    /// False when it was cut off.
    bool run() {
        go(0, 0, {}, 0, 0);
        return !m_cutOff;
    }

  private:
    struct Way {
        Placed next;
        Cost step = 0; ///< all that is known to be added
        Cost bound = 0;
    };

    void go(Cost spent, std::uint32_t placed, Length fromNear, Cost cupBefore, int place) {
        if (place == m_scoring.staves()) {
            const Cost total = m_scoring.total(m_order);
            if (total < m_result.total) {
                m_result.total = total;
                m_result.order = m_order;
            }
            return;
        }
        const int panel = m_scoring.panelOf(place);
        if (place > 0 && place == m_scoring.startOf(panel)) {
            cupBefore += cupOf(panel - 1, place);
            placed = 0;
            fromNear = {};
        }
        const Cost cupNow = cupBefore + leastCup(panel, place);
        std::vector<Way> ways;
        for (int stave = m_scoring.startOf(panel); stave < m_scoring.endOf(panel); ++stave) {
            const std::uint32_t bit = std::uint32_t{1} << (stave - m_scoring.startOf(panel));
            for (int pose = 0; (placed & bit) == 0 && pose < 4; ++pose) {
                const Placed next{stave, pose};
                const Cost rest = m_toGo.after(panel, placed | bit, next);
                if (rest >= CostToGo::never || !m_scoring.mayStand(next, place)) {
                    continue;
                }
                const std::optional<Placed> last =
                    place == 0 ? std::nullopt : std::optional(m_order.back());
                const Cost step =
                    m_toGo.step(place, last, fromNear, next) + crowding(panel, place, next);
                const Cost bound = spent + step + rest + cupNow;
                if (bound < m_result.total) {
                    ways.push_back({next, step, bound});
                }
            }
        }
        std::stable_sort(ways.begin(), ways.end(),
                         [](const Way& a, const Way& b) { return a.bound < b.bound; });
        for (const Way& way : ways) {
            if (way.bound >= m_result.total) {
                return;
            }
            if (++m_result.looked > m_work ||
                ((m_result.looked & 0xFFF) == 0 && m_stop.stop_requested())) {
                m_cutOff = true;
            }
            if (m_cutOff) {
                return;
            }
            m_order.push_back(way.next);
            go(spent + way.step,
               placed | std::uint32_t{1} << (way.next.stave - m_scoring.startOf(panel)),
               fromNear + m_scoring.widthOf(way.next.stave), cupBefore, place + 1);
            m_order.pop_back();
        }
    }

    [[nodiscard]] Cost crowding(int panel, int place, Placed next) const {
        Cost cost = 0;
        Length between;
        for (int other = place - 2; other >= m_scoring.startOf(panel); --other) {
            between += m_scoring.widthOf(m_order[static_cast<std::size_t>(other + 1)].stave);
            const Placed there = m_order[static_cast<std::size_t>(other)];
            if (m_scoring.mayCrowd(there, next)) {
                cost += m_scoring.crowding(there, next, between + m_scoring.widthOf(there.stave));
            }
        }
        return cost;
    }

    [[nodiscard]] Cost cupOf(int panel, int end) {
        m_cups.clear();
        for (int place = m_scoring.startOf(panel); place < end; ++place) {
            m_cups.push_back(m_scoring.cupPart(m_order[static_cast<std::size_t>(place)]));
        }
        return m_scoring.cup(m_cups,
                             m_scoring.problem().panels[static_cast<std::size_t>(panel)].rings);
    }

    /// What stands already lies at least half its own depth off any straight line, and so off the
    /// one between the panel's edges; less one for what is rounded.
    [[nodiscard]] Cost leastCup(int panel, int end) {
        const Cost whole = cupOf(panel, end);
        const int weight = m_scoring.problem().settings.weights.of(GlueTerm::PanelCup);
        return std::max<Cost>(0, whole / 2 - 2 * weight);
    }

    const Scoring& m_scoring;
    const CostToGo& m_toGo;
    ExactResult& m_result;
    std::int64_t m_work;
    const std::stop_token& m_stop;
    Order m_order;
    std::vector<CupPart> m_cups;
    bool m_cutOff = false;
};

} // namespace

ExactResult exactOrder(const Scoring& scoring, const Order& begin, std::int64_t work,
                       const std::stop_token& stop, Cost below) {
    ExactResult result{begin, std::min(scoring.total(begin), below), true, 0};
    std::vector<CostToGo> tables;
    for (const int direction : {1, -1}) {
        if (stop.stop_requested()) {
            result.isProved = false;
            return result;
        }
        tables.emplace_back(scoring, direction);
        if (const std::optional<Order> order = tables.back().best()) {
            const Cost total = scoring.total(*order);
            if (total < result.total) {
                result.total = total;
                result.order = *order;
            }
        }
    }
    for (const CostToGo& toGo : tables) {
        result.isProved = Enumeration(scoring, toGo, result, work, stop).run() && result.isProved;
        result.looked = std::min(result.looked, work); // each direction has its share
        if (!result.isProved) {
            break;
        }
    }
    return result;
}

} // namespace stavewright::glueup
