#include "core/cutting/SmallJob.h"

#include <algorithm>
#include <limits>
#include <memory>

#include "core/cutting/BoardTable.h"
#include "core/cutting/EqualBoards.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

constexpr std::uint64_t mostYields = 4'000;
constexpr std::size_t mostItems = 64;
constexpr std::size_t mostBoards = 12;
constexpr Cost worthless = std::numeric_limits<Cost>::min() / 4;

/// The demand in a YieldSpace: what may be made of each kind and what a yield leaves to pay.
class SmallDemand {
  public:
    SmallDemand(const Context& context, const Demand& demand)
        : m_context(&context)
        , m_demand(&demand) {
        m_isSmall = true;
        for (std::size_t k = 0; k < demand.open.size() && m_isSmall; ++k) {
            addKind(k);
        }
        m_isSmall = m_isSmall && !m_items.empty() && m_items.size() <= mostItems &&
                    m_space.size() > 0 && m_space.size() <= mostYields;
        if (m_isSmall) {
            m_ceiling.assign(m_space.size(), 0);
            fillCeiling(0, {}, 0);
        }
    }

    [[nodiscard]] bool isSmall() const { return m_isSmall; }
    [[nodiscard]] const YieldSpace& space() const { return m_space; }
    [[nodiscard]] const std::vector<PlaceItem>& items() const { return m_items; }
    /// What a yield can save at most.
    [[nodiscard]] const std::vector<Cost>& ceiling() const { return m_ceiling; }

    /// Cost of what a yield leaves out.
    [[nodiscard]] Cost missing(const Yield& yield) const {
        Cost sum = 0;
        for (const Counted& counted : m_counted) {
            const Kind& kind = kindOf(counted);
            const std::int64_t count = m_space.amount(yield, counted.count);
            if (!kind.isPool) {
                sum += (m_demand->open[counted.kind] - count) * kind.penaltyUnplaced;
                continue;
            }
            const Nm step = std::max<Nm>(1, kind.step);
            const Nm net = count * (kind.width - kind.jointAllowance) +
                           m_space.amount(yield, counted.steps) * step;
            if (net >= kind.netWanted && net <= kind.netMost && count >= kind.fewest &&
                count <= kind.most) {
                continue;
            }
            sum += panelShare(kind, std::max(step, kind.netWanted - net));
        }
        return sum;
    }

  private:
    struct Counted {
        std::size_t kind = 0;
        std::size_t count = 0; ///< field: blanks or staves
        std::size_t steps = 0; ///< field, pools: steps by which the staves are wider than the least
    };

    [[nodiscard]] const Kind& kindOf(const Counted& counted) const {
        return m_context->problem->kinds[counted.kind];
    }

    [[nodiscard]] static Cost panelShare(const Kind& kind, Nm missing) {
        return static_cast<Cost>(static_cast<double>(kind.penaltyUnplaced) *
                                 static_cast<double>(missing) /
                                 static_cast<double>(std::max<Nm>(1, kind.netWanted)));
    }

    void addKind(std::size_t k) {
        const Kind& kind = m_context->problem->kinds[k];
        const std::int64_t open = m_demand->open[k];
        if (!kind.isPool) {
            if (open > 0) {
                const std::size_t count = m_space.addField(open);
                m_counted.push_back({k, count, 0});
                if (m_space.size() > 0) {
                    m_items.push_back(
                        {static_cast<int>(k), kind.length, kind.width, m_space.times(count, 1)});
                }
            }
            return;
        }
        const Nm step = std::max<Nm>(1, kind.step);
        const Nm least = kind.width - kind.jointAllowance;
        if (kind.demand <= 0) {
            return;
        }
        if (kind.demand > 1 || open != kind.netWanted || m_demand->staves[k] != kind.most ||
            (kind.widest - kind.width) / step >= static_cast<Nm>(mostItems)) {
            m_isSmall = false; // staves would have to be shared out
            return;
        }
        const std::size_t count = m_space.addField(kind.most);
        const std::size_t steps = m_space.addField(std::max<Nm>(0, kind.netMost - least) / step);
        m_counted.push_back({k, count, steps});
        for (Nm width = kind.width; width <= kind.widest && m_space.size() > 0; width += step) {
            if (width - kind.jointAllowance <= kind.netMost) {
                m_items.push_back(
                    {static_cast<int>(k), kind.length, width,
                     m_space.times(count, 1) + m_space.times(steps, (width - kind.width) / step)});
            }
        }
    }

    /// Over all amounts of the fields from `from` on.
    void fillCeiling(std::size_t from, const Yield& yield, Cost worth) {
        if (from == m_counted.size()) {
            m_ceiling[yield.index] = worth;
            return;
        }
        const Counted& counted = m_counted[from];
        const Kind& kind = kindOf(counted);
        const std::int64_t most = kind.isPool ? kind.most : m_demand->open[counted.kind];
        for (std::int64_t n = 0; n <= most; ++n) {
            const Yield some = yield + m_space.times(counted.count, n);
            if (!kind.isPool) {
                fillCeiling(from + 1, some, worth + n * kind.penaltyUnplaced);
                continue;
            }
            const Nm step = std::max<Nm>(1, kind.step);
            const Nm last = std::max<Nm>(0, kind.netMost - kind.width + kind.jointAllowance) / step;
            const Cost whole = n == 0 ? 0 : panelShare(kind, std::max(step, kind.netWanted));
            for (Nm steps = 0; steps <= last; ++steps) {
                // Wider than the panel may be is worth nothing: fewer or narrower staves do.
                const Nm net = n * (kind.width - kind.jointAllowance) + steps * step;
                fillCeiling(from + 1, some + m_space.times(counted.steps, steps),
                            net <= kind.netMost ? worth + whole : worthless);
            }
        }
    }

    const Context* m_context;
    const Demand* m_demand;
    bool m_isSmall = false;
    YieldSpace m_space;
    std::vector<Counted> m_counted;
    std::vector<PlaceItem> m_items;
    std::vector<Cost> m_ceiling;
};

} // namespace

std::optional<SmallPlan> solveSmall(const Context& context,
                                    const std::vector<const BoardModel*>& models,
                                    const Demand& demand, std::int64_t mostWork, int threads,
                                    const Interrupt& interrupt, std::int64_t& work) {
    const Problem& problem = *context.problem;
    if (models.size() > mostBoards ||
        (problem.limits.offcutWorthPercent > 0 && problem.limits.offcutLength > 0)) {
        return std::nullopt;
    }
    const SmallDemand small(context, demand);
    if (!small.isSmall()) {
        return std::nullopt;
    }
    // Equal boards share a table.
    const std::vector<std::size_t> classOf = equalBoards(problem);
    std::vector<std::unique_ptr<BoardTable>> tables(models.size());
    std::vector<std::size_t> first;
    for (std::size_t b = 0; b < models.size(); ++b) {
        if (classOf[b] == b) {
            first.push_back(b);
            tables[b] = std::make_unique<BoardTable>(context, *models[b], small.space(),
                                                     small.items(), small.ceiling());
        }
    }
    std::vector<char> filled(first.size(), 0);
    const bool done = runItems(
        first.size(), threads,
        [&](std::size_t i) { filled[i] = tables[first[i]]->fill(mostWork, interrupt) ? 1 : 0; },
        interrupt);
    for (const std::size_t b : first) {
        work += tables[b]->work();
    }
    if (!done || std::find(filled.begin(), filled.end(), 0) != filled.end()) {
        return std::nullopt;
    }

    Cheapest cheapest(small.space());
    std::vector<Label> plans(1);
    std::vector<LabelNode> nodes;
    std::vector<std::pair<std::size_t, const Label*>> pieces; // board and its label
    for (std::size_t b = 0; b < models.size(); ++b) {
        const Cost price = models[b]->price();
        std::vector<Label> with = plans;
        for (const Label& pattern : tables[classOf[b]]->labels()) {
            const auto piece = static_cast<int>(pieces.size());
            pieces.emplace_back(b, &pattern);
            for (const Label& plan : plans) {
                Label next;
                next.yield = plan.yield + pattern.yield;
                next.cost = plan.cost + pattern.cost + price;
                next.previous = plan.node;
                next.piece = piece;
                if (small.space().holds(next.yield) &&
                    next.cost <= small.ceiling()[next.yield.index]) {
                    with.push_back(next);
                }
            }
        }
        work += static_cast<std::int64_t>(with.size());
        cheapest.settle(with, nodes);
        plans = std::move(with);
        if (interrupt.isCalled()) {
            return std::nullopt;
        }
    }
    const Label* best = nullptr;
    Cost least = 0;
    for (const Label& plan : plans) {
        const Cost value = plan.cost + small.missing(plan.yield);
        if (best == nullptr || value < least) {
            best = &plan;
            least = value;
        }
    }
    SmallPlan plan;
    plan.value = least;
    for (const BoardModel* model : models) {
        plan.value += model->hasFixed() ? model->board().cost : 0;
    }
    for (int node = best->node; node >= 0; node = nodes[static_cast<std::size_t>(node)].previous) {
        const int piece = nodes[static_cast<std::size_t>(node)].piece;
        if (piece >= 0) { // the plan that uses no board has none
            const auto& [board, label] = pieces[static_cast<std::size_t>(piece)];
            Pattern pattern = tables[classOf[board]]->cut(*label);
            pattern.board = static_cast<int>(board);
            plan.patterns.push_back(std::move(pattern));
        }
    }
    std::reverse(plan.patterns.begin(), plan.patterns.end());
    return plan;
}

} // namespace stavewright::cutting
