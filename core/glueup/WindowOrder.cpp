#include "core/glueup/WindowOrder.h"

#include <algorithm>
#include <bit>

namespace stavewright::glueup {

namespace {

constexpr Cost never = std::int64_t{1} << 60;

class Window {
  public:
    Window(const Scoring& scoring, const Order& order, int from, int to, int direction)
        : m_scoring(scoring)
        , m_order(order)
        , m_panel(scoring.panelOf(from))
        , m_from(from)
        , m_places(to - from)
        , m_direction(direction) {
        for (int place = scoring.startOf(m_panel); place < from; ++place) {
            m_before += scoring.widthOf(order[static_cast<std::size_t>(place)].stave);
        }
        for (int place = from; place < to; ++place) {
            m_staves.push_back(order[static_cast<std::size_t>(place)].stave);
        }
    }

    /// The order with the best this run can be; as it was when no way is allowed.
    Order best() {
        fill();
        const std::uint32_t full = (std::uint32_t{1} << m_places) - 1;
        Order order = m_order;
        int last = -1;
        Cost least = never;
        for (int state = 0; state < m_places * 4; ++state) {
            const Cost cost = m_least[index(full, state)];
            if (cost < never && cost + closing(placed(state)) < least) {
                least = cost + closing(placed(state));
                last = state;
            }
        }
        std::uint32_t set = full;
        for (int place = m_from + m_places - 1; last >= 0 && place >= m_from; --place) {
            order[static_cast<std::size_t>(place)] = placed(last);
            const int before = m_cameFrom[index(set, last)];
            set &= ~(std::uint32_t{1} << (last / 4));
            last = before;
        }
        return order;
    }

  private:
    [[nodiscard]] Placed placed(int state) const {
        return {m_staves[static_cast<std::size_t>(state / 4)], state % 4};
    }
    [[nodiscard]] std::size_t index(std::uint32_t set, int state) const {
        return set * static_cast<std::size_t>(m_places) * 4 + static_cast<std::size_t>(state);
    }

    [[nodiscard]] Cost opening(Placed next) const {
        if (m_from > m_scoring.startOf(m_panel)) {
            return m_scoring.joint(m_order[static_cast<std::size_t>(m_from - 1)], next);
        }
        const Cost near = m_scoring.outer(next, Side::Near);
        return m_from == 0
                   ? near
                   : near + m_scoring.gap(m_order[static_cast<std::size_t>(m_from - 1)], next);
    }

    [[nodiscard]] Cost closing(Placed last) const {
        const int end = m_from + m_places;
        if (end < m_scoring.endOf(m_panel)) {
            return m_scoring.joint(last, m_order[static_cast<std::size_t>(end)]);
        }
        const Cost far = m_scoring.outer(last, Side::Far);
        return end == m_scoring.staves()
                   ? far
                   : far + m_scoring.gap(last, m_order[static_cast<std::size_t>(end)]);
    }

    void fill() {
        const std::uint32_t sets = std::uint32_t{1} << m_places;
        m_least.assign(static_cast<std::size_t>(sets) * static_cast<std::size_t>(m_places) * 4,
                       never);
        m_cameFrom.assign(m_least.size(), -1);
        for (int state = 0; state < m_places * 4; ++state) {
            if (m_scoring.mayStand(placed(state), m_from)) {
                m_least[index(std::uint32_t{1} << (state / 4), state)] =
                    opening(placed(state)) + m_scoring.alone(placed(state), m_direction);
            }
        }
        for (std::uint32_t set = 1; set + 1 < sets; ++set) {
            const int place = m_from + std::popcount(set);
            Length fromNear = m_before;
            for (std::uint32_t rest = set; rest != 0; rest &= rest - 1) {
                fromNear +=
                    m_scoring.widthOf(m_staves[static_cast<std::size_t>(std::countr_zero(rest))]);
            }
            const Cost seam = m_scoring.seam(m_panel, fromNear);
            for (int next = 0; next < m_places * 4; ++next) {
                if ((set >> (next / 4) & 1) != 0 || !m_scoring.mayStand(placed(next), place)) {
                    continue;
                }
                Cost least = never;
                int from = -1;
                for (int last = 0; last < m_places * 4; ++last) {
                    const Cost before =
                        (set >> (last / 4) & 1) != 0 ? m_least[index(set, last)] : never;
                    if (before < never) {
                        const Cost cost = before + m_scoring.joint(placed(last), placed(next));
                        if (cost < least) {
                            least = cost;
                            from = last;
                        }
                    }
                }
                if (from >= 0) {
                    const std::size_t to = index(set | std::uint32_t{1} << (next / 4), next);
                    m_least[to] = least + seam + m_scoring.alone(placed(next), m_direction);
                    m_cameFrom[to] = from;
                }
            }
        }
    }

    const Scoring& m_scoring;
    const Order& m_order;
    int m_panel;
    int m_from;
    int m_places;
    int m_direction;
    Length m_before;
    std::vector<int> m_staves;
    std::vector<Cost> m_least;
    std::vector<int> m_cameFrom;
};

int prevailing(const Scoring& scoring, const Order& order) {
    int sum = 0;
    for (const Placed& placed : order) {
        sum += scoring.planing(placed);
    }
    return sum < 0 ? -1 : 1;
}

} // namespace

Order polished(const Scoring& scoring, Order order, int places, const std::stop_token& stop) {
    Cost total = scoring.total(order);
    bool better = true;
    while (better) {
        better = false;
        for (int panel = 0; panel < scoring.panels(); ++panel) {
            const int end = scoring.endOf(panel);
            const int size = std::min(places, end - scoring.startOf(panel));
            for (int from = scoring.startOf(panel); size > 0 && from + size <= end; ++from) {
                if (stop.stop_requested()) {
                    return order;
                }
                Order tried =
                    Window(scoring, order, from, from + size, prevailing(scoring, order)).best();
                const Cost cost = scoring.total(tried);
                if (cost < total) {
                    total = cost;
                    order = std::move(tried);
                    better = true;
                }
            }
        }
    }
    return order;
}

} // namespace stavewright::glueup
