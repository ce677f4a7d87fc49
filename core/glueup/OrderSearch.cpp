#include "core/glueup/OrderSearch.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "core/glueup/WindowOrder.h"

namespace stavewright::glueup {

namespace {

constexpr int placesPolished = 7;

/// Standard distributions are not specified bit for bit; this mapping is.
class Chance {
  public:
    explicit Chance(std::uint64_t seed)
        : m_engine(seed) {}
    int below(int limit) {
        return static_cast<int>(m_engine() % static_cast<std::uint64_t>(limit));
    }
    double share() { return static_cast<double>(m_engine() >> 11) * 0x1.0p-53; }

  private:
    std::mt19937_64 m_engine;
};

class Annealing {
  public:
    Annealing(const Scoring& scoring, const Order& begin, std::uint64_t seed)
        : m_scoring(scoring)
        , m_chance(seed)
        , m_order(begin)
        , m_cost(scoring.total(begin))
        , m_best(begin)
        , m_bestCost(m_cost) {
        for (int panel = 0; panel < scoring.panels(); ++panel) {
            std::vector<int> free;
            for (int place = scoring.startOf(panel); place < scoring.endOf(panel); ++place) {
                if (!isLocked(panel, place)) {
                    free.push_back(place);
                }
            }
            m_free.push_back(std::move(free));
        }
    }

    void run(std::int64_t moves, const std::stop_token& stop) {
        if (!canMove()) {
            return;
        }
        const double hot = 0.2 * typicalWorsening(); // the two figures: the best of those tried
        constexpr double coldest = 0.04;
        Order tried;
        for (std::int64_t move = 0; move < moves; ++move) {
            if ((move & 0x3FF) == 0 && stop.stop_requested()) {
                return;
            }
            tried = m_order;
            if (!change(tried)) {
                continue;
            }
            const double done = static_cast<double>(move) / static_cast<double>(moves);
            const double temperature = hot * std::pow(coldest, done);
            // How much worse it may be, drawn first: most moves need no more than a glance.
            const double worse = -temperature * std::log(m_chance.share() + 0x1.0p-54);
            const Cost atMost = m_cost + static_cast<Cost>(worse);
            const Cost cost = m_scoring.total(tried, m_room, atMost);
            if (cost <= atMost) {
                m_order.swap(tried);
                m_cost = cost;
                if (cost < m_bestCost) {
                    m_best = m_order;
                    m_bestCost = cost;
                }
            }
        }
    }

    [[nodiscard]] const Order& best() const { return m_best; }
    [[nodiscard]] Cost bestCost() const { return m_bestCost; }

  private:
    [[nodiscard]] bool isLocked(int panel, int place) const {
        const PanelWish& wish = m_scoring.problem().panels[static_cast<std::size_t>(panel)];
        return !wish.locked.empty() &&
               wish.locked[static_cast<std::size_t>(place - m_scoring.startOf(panel))].has_value();
    }

    [[nodiscard]] bool canMove() const {
        return std::any_of(m_free.begin(), m_free.end(),
                           [](const std::vector<int>& free) { return !free.empty(); });
    }

    /// About what a chance move makes worse.
    double typicalWorsening() {
        double sum = 1;
        Order tried;
        constexpr int samples = 200;
        for (int i = 0; i < samples; ++i) {
            tried = m_order;
            if (change(tried)) {
                sum += static_cast<double>(std::abs(m_scoring.total(tried) - m_cost));
            }
        }
        return sum / samples;
    }

    bool change(Order& order) {
        const auto panel = static_cast<std::size_t>(
            m_free.size() == 1 ? 0 : m_chance.below(static_cast<int>(m_free.size())));
        const std::vector<int>& free = m_free[panel];
        if (free.empty()) {
            return false;
        }
        const auto places = static_cast<int>(free.size());
        const auto a = static_cast<std::size_t>(m_chance.below(places));
        const auto b = static_cast<std::size_t>(m_chance.below(places));
        const bool mayExchange = m_scoring.problem().exchange;
        switch (m_chance.below(mayExchange ? 6 : 4)) {
        case 4:
        case 5:
            return exchange(order);
        case 0:
            return turn(order, free[a]);
        case 1:
            if (a == b) {
                return turn(order, free[a]);
            }
            std::swap(slot(order, free[a]), slot(order, free[b]));
            if (m_chance.below(2) == 0) {
                return turn(order, free[a]);
            }
            return true;
        case 2: { // one stave to another place, those between move up
            for (std::size_t i = a; i < b; ++i) {
                std::swap(slot(order, free[i]), slot(order, free[i + 1]));
            }
            for (std::size_t i = a; i > b; --i) {
                std::swap(slot(order, free[i]), slot(order, free[i - 1]));
            }
            return a != b;
        }
        default:
            return reverse(order, free, std::min(a, b), std::max(a, b));
        }
    }

    /// One stave of each panel for the other, in any pose.
    bool exchange(Order& order) {
        if (m_free[0].empty() || m_free[1].empty()) {
            return false;
        }
        const auto pick = [&](const std::vector<int>& free) {
            return free[static_cast<std::size_t>(m_chance.below(static_cast<int>(free.size())))];
        };
        const int a = pick(m_free[0]);
        const int b = pick(m_free[1]);
        std::swap(slot(order, a), slot(order, b));
        if (!m_scoring.areWideEnough(order)) {
            return false;
        }
        const int poses = m_chance.below(16);
        for (const auto& [place, turn] : {std::pair{a, poses / 4}, std::pair{b, poses % 4}}) {
            Placed turned = slot(order, place);
            turned.pose ^= turn;
            if (!m_scoring.mayStand(turned, place)) {
                return false;
            }
            slot(order, place) = turned;
        }
        return true;
    }

    static Placed& slot(Order& order, int place) { return order[static_cast<std::size_t>(place)]; }

    bool turn(Order& order, int place) {
        Placed& placed = slot(order, place);
        const Placed turned{placed.stave, placed.pose ^ (1 + m_chance.below(3))};
        if (!m_scoring.mayStand(turned, place)) {
            return false;
        }
        placed = turned;
        return true;
    }

    /// A run of staves as it stands, turned end for end as one, or rolled over as one.
    bool reverse(Order& order, const std::vector<int>& free, std::size_t from, std::size_t to) {
        std::vector<Placed> run;
        for (std::size_t i = from; i <= to; ++i) {
            run.push_back(slot(order, free[i]));
        }
        std::reverse(run.begin(), run.end());
        const int turn = 1 + m_chance.below(2);
        for (std::size_t i = from; i <= to; ++i) {
            Placed placed = run[i - from];
            placed.pose ^= turn;
            if (!m_scoring.mayStand(placed, free[i])) {
                return false;
            }
            slot(order, free[i]) = placed;
        }
        return true;
    }

    const Scoring& m_scoring;
    Chance m_chance;
    std::vector<std::vector<int>> m_free; ///< places that are not locked, by panel
    Order m_order;
    Cost m_cost;
    Order m_best;
    Cost m_bestCost;
    std::vector<CupPart> m_room;
};

} // namespace

Order firstOrder(const Scoring& scoring) {
    Order order;
    for (int panel = 0; panel < scoring.panels(); ++panel) {
        const PanelWish& wish = scoring.problem().panels[static_cast<std::size_t>(panel)];
        std::vector<int> open;
        for (int stave = scoring.startOf(panel); stave < scoring.endOf(panel); ++stave) {
            const bool isLocked =
                std::any_of(wish.locked.begin(), wish.locked.end(),
                            [&](const auto& locked) { return locked && locked->stave == stave; });
            if (!isLocked) {
                open.push_back(stave);
            }
        }
        std::size_t next = 0;
        for (int place = scoring.startOf(panel); place < scoring.endOf(panel); ++place) {
            const auto local = static_cast<std::size_t>(place - scoring.startOf(panel));
            if (!wish.locked.empty() && wish.locked[local]) {
                order.push_back(*wish.locked[local]);
                continue;
            }
            Placed placed{open[next++], 0};
            for (int pose = 3; pose >= 0; --pose) {
                if (scoring.mayStand({placed.stave, pose}, place)) {
                    placed.pose = pose;
                }
            }
            order.push_back(placed);
        }
    }
    return order;
}

Order searchOrder(const Scoring& scoring, const Order& begin, const SearchLimits& limits,
                  const std::stop_token& stop) {
    Order best = begin;
    Cost bestCost = scoring.total(begin);
    for (int i = 0; i < limits.beginnings && !stop.stop_requested(); ++i) {
        Annealing annealing(scoring, begin, limits.seed + static_cast<std::uint64_t>(i));
        annealing.run(limits.moves / limits.beginnings, stop);
        Order order = polished(scoring, annealing.best(), placesPolished, stop);
        const Cost cost = scoring.total(order);
        if (cost < bestCost) {
            bestCost = cost;
            best = std::move(order);
        }
    }
    return best;
}

} // namespace stavewright::glueup
