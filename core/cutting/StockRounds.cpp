// A few boards of the best plan are freed, and what they gave is cut anew from as many of them, by
// column generation and a dive over these alone. Boards that are least filled are freed more often;
// a plan that costs the same is taken too when its boards are filled less evenly, since the
// emptiest is then nearer to being saved.

#include <algorithm>
#include <limits>
#include <numeric>

#include "core/cutting/ClearStock.h"
#include "core/cutting/Random.h"
#include "core/cutting/StockWhole.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Side by side; fixed, so that the number of threads does not matter.
constexpr std::size_t remakesPerRound = 4;
constexpr std::int64_t fewestFreed = 2;
constexpr std::int64_t mostFreed = 6;
/// Boards priced, at what one took so far on average.
constexpr std::int64_t pricingsOfRemake = 60;
constexpr std::int64_t fewestSteps = 1'000'000;
/// Counted for every one, so that a limit in work ends even rounds that find nothing to do.
constexpr std::int64_t leastWork = 1'000;
constexpr int turnsOfRemake = 1;
/// Columns and nodes of the programme over whole columns.
constexpr std::size_t mostMixed = 400;
constexpr int mixNodes = 300;
/// Prices are drawn around those of the mix, in percent.
constexpr std::int64_t lowestDrawn = 85;
constexpr std::int64_t highestDrawn = 120;

} // namespace

double ClearStock::filled(const StockColumn& column) const {
    double area = 0;
    for (std::size_t k = 0; k < column.yield.size(); ++k) {
        const Kind& kind = m_context->problem->kinds[k];
        area += static_cast<double>(column.yield[k]) * static_cast<double>(kind.length) *
                static_cast<double>(kind.width) / 1e12;
    }
    return area;
}

std::vector<std::size_t> ClearStock::boardsToFree(std::uint64_t seed) const {
    Random random(seed);
    std::vector<std::size_t> all(m_plan.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    random.shuffle(all);
    const auto wanted = static_cast<std::size_t>(random.between(fewestFreed, mostFreed));
    if (random.below(2) == 0) {
        const auto emptiest =
            std::min_element(all.begin(), all.end(), [&](std::size_t a, std::size_t b) {
                return filled(m_plan[a]) < filled(m_plan[b]);
            });
        std::iter_swap(all.begin(), emptiest);
    }
    all.resize(std::min(all.size(), wanted));
    return all;
}

ClearStock::State ClearStock::beside(const std::vector<StockColumn>& plan) const {
    State state = m_start;
    for (const StockColumn& column : plan) {
        --state.left[column.boards];
        state.cost += column.cost;
        for (std::size_t k = 0; k < state.open.size(); ++k) {
            state.open[k] -= column.yield[k];
        }
    }
    return state;
}

ClearStock::Remade ClearStock::remake(std::uint64_t seed, bool dives) const {
    Remade made;
    made.freed = boardsToFree(seed);
    Random random(seed ^ 0x9E3779B97F4A7C15ULL);
    std::vector<StockColumn> kept = m_plan;
    for (const std::size_t i : made.freed) {
        kept[i].boards = m_classes.size();
    }
    std::erase_if(kept,
                  [&](const StockColumn& column) { return column.boards == m_classes.size(); });
    State start = beside(kept);
    const Cost before = m_best - start.cost;
    start.cost = 0;
    ClearStock part(*this, start);
    part.m_interrupt = m_interrupt;
    part.m_limits.work =
        std::max(fewestSteps, pricingsOfRemake * m_work / std::max<std::int64_t>(1, m_pricings));
    std::vector<Cost> drawn;
    for (const Cost price : m_prices) {
        drawn.push_back(price * random.between(lowestDrawn, highestDrawn) / 100);
    }
    part.finish(start, drawn);
    for (int turns = 0; dives && turns <= turnsOfRemake && !part.isOver(); ++turns) {
        part.dive(start, turns);
    }
    made.saved = before - part.m_best;
    made.columns = std::move(part.m_plan);
    made.work = part.m_work;
    return made;
}

void ClearStock::remakeRounds(int rounds, bool dives) {
    for (int round = 0; round < rounds && !isPaused() && m_plan.size() > 1; ++round) {
        std::vector<Remade> made(remakesPerRound);
        const bool done = runItems(
            made.size(), m_limits.threads,
            [&](std::size_t i) {
                made[i] = remake(m_limits.seed * 1'000'003 + m_remakes + i, dives);
            },
            *m_interrupt);
        m_remakes += made.size();
        if (!done) {
            return;
        }
        std::vector<std::optional<StockColumn>> plan(m_plan.begin(), m_plan.end());
        Cost saved = 0;
        for (const Remade& one : made) {
            m_work += one.work + leastWork;
            saved += replace(one, plan) ? one.saved : 0;
        }
        std::vector<StockColumn> standing;
        for (std::optional<StockColumn>& column : plan) {
            if (column) {
                standing.push_back(std::move(*column));
            }
        }
        if (saved > 0) {
            tell(std::move(standing), m_best - saved);
        } else {
            m_plan = std::move(standing);
        }
    }
}

bool ClearStock::replace(const Remade& made, std::vector<std::optional<StockColumn>>& plan) {
    double before = 0;
    double after = 0;
    for (const std::size_t i : made.freed) {
        if (made.saved < 0 || !plan[i]) {
            return false;
        }
        before += filled(*plan[i]) * filled(*plan[i]);
    }
    for (const StockColumn& column : made.columns) {
        after += filled(column) * filled(column);
    }
    if (made.saved == 0 && after < before) {
        return false;
    }
    std::vector<std::optional<StockColumn>> changed = plan;
    for (const std::size_t i : made.freed) {
        changed[i].reset();
    }
    changed.insert(changed.end(), made.columns.begin(), made.columns.end());
    // Another one of the round may have taken what both had in view.
    std::vector<StockColumn> standing;
    for (const std::optional<StockColumn>& column : changed) {
        if (column) {
            standing.push_back(*column);
        }
    }
    const State left = beside(standing);
    const auto isNegative = [](int count) { return count < 0; };
    if (std::any_of(left.left.begin(), left.left.end(), isNegative) ||
        std::any_of(left.open.begin(), left.open.end(), isNegative)) {
        return false;
    }
    plan = std::move(changed);
    for (const StockColumn& column : made.columns) {
        addColumn(column);
    }
    return true;
}

void ClearStock::mixWhole() {
    // What a column costs beyond the prices says how far a plan with it is from the mix.
    std::vector<std::pair<Cost, std::size_t>> dearness;
    for (std::size_t id = 0; id < m_columns.size(); ++id) {
        Cost beyond = m_columns[id].cost;
        for (std::size_t k = 0; k < m_prices.size(); ++k) {
            beyond -= m_prices[k] * m_columns[id].yield[k];
        }
        dearness.emplace_back(beyond, id);
    }
    std::stable_sort(dearness.begin(), dearness.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    dearness.resize(std::min(dearness.size(), mostMixed));
    std::vector<const StockColumn*> columns;
    for (const auto& [beyond, id] : dearness) {
        columns.push_back(&m_columns[id]);
    }
    const double below = static_cast<double>(m_best - m_grain) + 0.5;
    const std::vector<int> times = wholeStock(m_penalties, m_start.open, m_start.left, columns,
                                              {mixNodes, below}, *m_interrupt);
    m_work += mixNodes * static_cast<std::int64_t>(columns.size());
    std::vector<StockColumn> plan;
    std::vector<int> open = m_start.open;
    for (std::size_t i = 0; i < times.size(); ++i) {
        for (int n = 0; n < times[i]; ++n) {
            const std::size_t boards = columns[i]->boards;
            std::vector<int> limits;
            for (const ClearItem& item : m_classes[boards].board.items()) {
                limits.push_back(open[static_cast<std::size_t>(item.kind)]);
            }
            StockColumn column =
                columnOf(boards, withinLimits(columns[i]->pattern, std::move(limits)));
            for (std::size_t k = 0; k < open.size(); ++k) {
                open[k] -= column.yield[k];
            }
            if (!column.pattern.sections.empty()) {
                plan.push_back(std::move(column));
            }
        }
    }
    const State state = beside(plan);
    const Cost cost = state.cost + leftOut(state);
    if (!plan.empty() && cost < m_best) {
        tell(std::move(plan), cost);
    }
}

} // namespace stavewright::cutting
