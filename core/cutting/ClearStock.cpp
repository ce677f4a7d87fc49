#include "core/cutting/ClearStock.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/cutting/BarFill.h"
#include "core/cutting/ClearFill.h"
#include "core/cutting/EqualBoards.h"

namespace stavewright::cutting {

namespace {

/// Lengths times width; larger tables would be filled too slowly, hundreds of times.
constexpr std::int64_t mostCells = 8'000'000;
/// Unfinished patterns kept side by side: at first, and at most where the bound asks for it.
constexpr std::size_t fillWidth = 6;
constexpr std::size_t mostFillWidth = 400;
constexpr std::size_t timesWider = 8;
constexpr int fillRounds = 12;
constexpr int mostRounds = 2'000; ///< of pricing
constexpr std::int64_t workPerMix = 200;
/// Turns of a dive, before and after the first rounds of cutting a few boards anew.
constexpr int firstTurns = 1;
constexpr int mostTurns = 6;
/// What a dive may take, of the work up to it.
constexpr double shareOfDive = 0.5;
constexpr int remakeRoundsAtATime = 8;
/// Before the first mix, which of many kinds takes long.
constexpr int firstRemakeRounds = 10;
/// What they may take, of the work up to them.
constexpr std::int64_t timesFinished = 2;
/// Of the best gain there can be, what a pattern must give so that no better one is looked for.
constexpr double goodShare = 0.5;

} // namespace

ClearStock::ClearStock(const Context& context, const std::vector<const BoardModel*>& models,
                       const Demand& demand)
    : m_context(&context) {
    const Problem& problem = *context.problem;
    const std::vector<std::size_t> first = equalBoards(problem);
    std::vector<std::size_t> classOf(models.size(), 0);
    for (std::size_t b = 0; b < models.size(); ++b) {
        if (first[b] != b) {
            classOf[b] = classOf[first[b]];
            m_classes[classOf[b]].boards.push_back(b);
            continue;
        }
        auto board = ClearBoard::of(context, *models[b]);
        if (!board || models[b]->hasFixed()) {
            return;
        }
        const auto cells =
            static_cast<std::int64_t>(board->lengths().size()) * (board->width() + 1);
        if (!board->isBar() && cells > mostCells) {
            return;
        }
        classOf[b] = m_classes.size();
        m_classes.push_back({std::move(*board), {b}, models[b]->board().cost});
    }
    m_isUsable = !m_classes.empty() && 2 * m_classes.size() <= models.size();
    m_grain = std::gcd(problem.limits.crosscutCost, problem.limits.ripCost);
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        m_penalties.push_back(problem.kinds[k].penaltyUnplaced);
        m_start.open.push_back(static_cast<int>(std::max<std::int64_t>(0, demand.open[k])));
        m_grain = std::gcd(m_grain, m_penalties[k]);
        m_isUsable = m_isUsable && (!problem.kinds[k].isPool || problem.kinds[k].demand <= 0);
    }
    for (const Class& boards : m_classes) {
        m_start.left.push_back(static_cast<int>(boards.boards.size()));
        m_grain = std::gcd(m_grain, boards.price);
    }
    m_grain = std::max<Cost>(1, m_grain);
    m_best = leftOut(m_start);
    m_bound = std::numeric_limits<Cost>::min();
}

ClearStock::ClearStock(const ClearStock& whole, State start)
    : m_context(whole.m_context)
    , m_isUsable(true)
    , m_classes(whole.m_classes)
    , m_start(std::move(start))
    , m_penalties(whole.m_penalties)
    , m_grain(whole.m_grain) {
    for (const StockColumn& column : whole.m_columns) {
        if (isWithin(column, m_start)) {
            m_columns.push_back(column);
        }
    }
    m_best = leftOut(m_start);
    m_bound = std::numeric_limits<Cost>::min();
}

bool ClearStock::isPaused() const { return isOver() || (m_pause > 0 && m_work >= m_pause); }

bool ClearStock::isOver() const {
    return (m_limits.work > 0 && m_work >= m_limits.work) || m_interrupt->isCalled() || isDone();
}

std::optional<Cost> ClearStock::bound() const {
    const Limits& limits = m_context->problem->limits;
    const bool offcutsCount = limits.offcutWorthPercent > 0;
    return offcutsCount || m_bound == std::numeric_limits<Cost>::min() ? std::nullopt
                                                                       : std::optional(m_bound);
}

Cost ClearStock::leftOut(const State& state) const {
    Cost cost = 0;
    for (std::size_t k = 0; k < state.open.size(); ++k) {
        cost += m_penalties[k] * state.open[k];
    }
    return cost;
}

Cost ClearStock::roundedUp(double value) const {
    // A little less is rounding of the programme.
    const double grain = static_cast<double>(m_grain);
    return static_cast<Cost>(std::ceil((value - std::abs(value) * 1e-9 - 0.5) / grain)) * m_grain;
}

StockColumn ClearStock::columnOf(std::size_t boards, ClearPattern pattern) const {
    StockColumn column;
    column.boards = boards;
    column.yield.assign(m_penalties.size(), 0);
    const ClearBoard& board = m_classes[boards].board;
    for (const ClearPattern::Section& section : pattern.sections) {
        for (const std::vector<int>& strip : section.strips) {
            for (const int item : strip) {
                ++column.yield[static_cast<std::size_t>(
                    board.items()[static_cast<std::size_t>(item)].kind)];
            }
        }
    }
    column.cost = board.cutCost(pattern) + m_classes[boards].price;
    column.pattern = std::move(pattern);
    return column;
}

ClearPattern ClearStock::price(std::size_t boards, const std::vector<Cost>& prices,
                               const std::vector<int>& open, double enough, Cost& worth,
                               Cost& bound) {
    const ClearBoard& board = m_classes[boards].board;
    std::vector<Cost> values;
    std::vector<int> limits;
    for (const ClearItem& item : board.items()) {
        values.push_back(prices[static_cast<std::size_t>(item.kind)]);
        limits.push_back(open[static_cast<std::size_t>(item.kind)]);
    }
    ++m_pricings;
    if (board.isBar()) {
        BarFill filled = fillBar(board, values, limits, m_work);
        worth = bound = filled.value;
        return std::move(filled.pattern);
    }
    const Cost floor = std::abs(enough) < 1e15 ? static_cast<Cost>(std::floor(enough)) : 0;
    ClearFill fill(board, std::move(values), std::move(limits), std::max<Cost>(0, floor));
    fill.lowerPrices(1, *m_interrupt);
    const double most = static_cast<double>(fill.bound()) - enough;
    if (!fill.isProved() &&
        (most <= 0 || static_cast<double>(fill.value()) - enough < goodShare * most)) {
        fill.lowerPrices(fillRounds, *m_interrupt);
        fill.search(m_width, *m_interrupt);
    }
    m_work += fill.work();
    worth = fill.value();
    bound = fill.bound();
    return fill.best();
}

bool ClearStock::isWithin(const StockColumn& column, const State& state) const {
    if (state.left[column.boards] <= 0) {
        return false;
    }
    for (std::size_t k = 0; k < state.open.size(); ++k) {
        if (column.yield[k] > state.open[k]) {
            return false;
        }
    }
    return true;
}

bool ClearStock::addColumn(StockColumn column) {
    const bool known =
        std::any_of(m_columns.begin(), m_columns.end(), [&](const StockColumn& other) {
            return other.boards == column.boards && other.cost <= column.cost &&
                   other.yield == column.yield;
        });
    if (known) {
        return false;
    }
    m_columns.push_back(std::move(column));
    return true;
}

template <class Enough, class Use>
void ClearStock::priceAll(const State& state, const std::vector<Cost>& prices, const Enough& enough,
                          const Use& use) {
    for (std::size_t c = 0; c < m_classes.size(); ++c) {
        if (state.left[c] <= 0) {
            continue;
        }
        Cost worth = 0;
        Cost most = 0;
        ClearPattern pattern = price(c, prices, state.open, enough(c), worth, most);
        use(c, std::move(pattern), worth, most);
    }
}

std::vector<std::pair<double, std::size_t>> ClearStock::mix(const State& state, double& value,
                                                            std::vector<Cost>& prices) {
    StockMix mix(m_penalties, state.open, state.left);
    for (std::size_t id = 0; id < m_columns.size(); ++id) {
        if (isWithin(m_columns[id], state)) {
            mix.add(id, m_columns[id]);
        }
    }
    const bool isRoot = state.taken.empty();
    for (int round = 0; round < mostRounds && !isOver(); ++round) {
        if (!mix.solve()) {
            break;
        }
        m_work += workPerMix;
        value = mix.value();
        prices = mix.prices();
        const std::vector<double> boardWorths = mix.boardWorths();
        Cost bound = 0;
        for (std::size_t k = 0; k < prices.size(); ++k) {
            prices[k] = std::min(prices[k], m_penalties[k]);
            bound += prices[k] * state.open[k];
        }
        const auto paid = [&](std::size_t c) {
            return static_cast<double>(m_classes[c].price) + boardWorths[c];
        };
        bool better = false;
        priceAll(
            state, prices, paid, [&](std::size_t c, ClearPattern pattern, Cost worth, Cost most) {
                bound += std::min<Cost>(0, m_classes[c].price - most) * state.left[c];
                const double gain = static_cast<double>(worth) - paid(c);
                if (gain <= 1 + 1e-7 * static_cast<double>(worth) || pattern.sections.empty()) {
                    return;
                }
                if (addColumn(columnOf(c, std::move(pattern)))) {
                    mix.add(m_columns.size() - 1, m_columns.back());
                    better = true;
                }
            });
        if (isRoot && !m_interrupt->isCalled()) {
            m_bound = std::max(m_bound, roundedUp(static_cast<double>(bound)));
            m_prices = prices;
        }
        if (better) {
            continue;
        }
        // What boards may still be worth can be all that keeps the bound below the mix.
        const bool isOpen = isRoot && m_bound < roundedUp(value) && m_width < mostFillWidth;
        if (!isOpen) {
            break;
        }
        m_width *= timesWider;
    }
    m_width = fillWidth;
    return mix.shares();
}

void ClearStock::take(State& state, std::size_t id) const {
    const StockColumn& column = m_columns[id];
    for (std::size_t k = 0; k < state.open.size(); ++k) {
        state.open[k] -= column.yield[k];
    }
    --state.left[column.boards];
    state.cost += column.cost;
    state.taken.push_back(id);
}

void ClearStock::offer(const State& state) {
    const Cost cost = state.cost + leftOut(state);
    if (cost >= m_best) {
        return;
    }
    std::vector<StockColumn> plan;
    for (const std::size_t id : state.taken) {
        plan.push_back(m_columns[id]);
    }
    tell(std::move(plan), cost);
}

void ClearStock::tell(std::vector<StockColumn> plan, Cost cost) {
    m_best = cost;
    m_plan = std::move(plan);
    if (m_better == nullptr) {
        return;
    }
    std::vector<Pattern> patterns;
    std::vector<std::size_t> used(m_classes.size(), 0);
    for (const StockColumn& column : m_plan) {
        const Class& boards = m_classes[column.boards];
        Pattern pattern = boards.board.cut(column.pattern);
        pattern.board = static_cast<int>(boards.boards[used[column.boards]++]);
        patterns.push_back(std::move(pattern));
    }
    (*m_better)(std::move(patterns));
}

void ClearStock::finish(State state, const std::vector<Cost>& prices, bool quickly) {
    constexpr double all = std::numeric_limits<double>::max();
    const auto enough = [&](std::size_t) { return quickly ? -all : all; };
    while (!isOver()) {
        double most = 0;
        StockColumn best;
        priceAll(state, prices, enough, [&](std::size_t c, ClearPattern pattern, Cost worth, Cost) {
            const double share = static_cast<double>(worth) /
                                 static_cast<double>(std::max<Cost>(1, m_classes[c].price));
            if (!pattern.sections.empty() && share > most) {
                most = share;
                best = columnOf(c, std::move(pattern));
            }
        });
        if (most <= 0) {
            break;
        }
        const auto known =
            std::find_if(m_columns.begin(), m_columns.end(), [&](const StockColumn& other) {
                return other.boards == best.boards && other.cost <= best.cost &&
                       other.yield == best.yield;
            });
        const auto id = static_cast<std::size_t>(known - m_columns.begin());
        if (known == m_columns.end()) {
            m_columns.push_back(std::move(best));
        }
        take(state, id);
    }
    offer(state);
}

void ClearStock::dive(const State& state, int turns) {
    if (isPaused()) {
        return;
    }
    double value = 0;
    std::vector<Cost> prices(m_penalties.size(), 0);
    const std::vector<std::pair<double, std::size_t>> shares = mix(state, value, prices);
    if (isPaused()) {
        return;
    }
    if (roundedUp(static_cast<double>(state.cost) + value) >= m_best) {
        return;
    }
    offer(state);
    if (shares.empty()) {
        return;
    }
    State whole = state;
    for (const auto& [share, id] : shares) {
        for (int times = static_cast<int>(share + 1e-6); times > 0; --times) {
            if (isWithin(m_columns[id], whole)) {
                take(whole, id);
            }
        }
    }
    finish(whole, prices);
    if (whole.taken.size() > state.taken.size()) {
        dive(whole, turns);
        return;
    }
    const std::size_t ways = std::min(shares.size(), static_cast<std::size_t>(turns) + 1);
    for (std::size_t way = 0; way < ways && !isPaused(); ++way) {
        State next = state;
        take(next, shares[way].second);
        dive(next, turns - static_cast<int>(way));
        if (roundedUp(static_cast<double>(state.cost) + value) >= m_best) {
            return;
        }
    }
}

void ClearStock::solve(const StockLimits& limits, const Interrupt& interrupt,
                       const OnBetter& better) {
    m_limits = limits;
    m_interrupt = &interrupt;
    m_better = &better;
    // To begin with: prices by area.
    std::vector<Cost> prices;
    for (const Kind& kind : m_context->problem->kinds) {
        prices.push_back(kind.length / 1'000 * (kind.width / 1'000) / 10'000 + 1);
    }
    finish(m_start, prices, true);
    finish(m_start, prices);
    m_prices = prices;
    m_pause = (1 + timesFinished) * m_work;
    remakeRounds(firstRemakeRounds, false);
    m_pause = 0;
    for (int turns = 0; (limits.dives == 0 || turns < limits.dives) && !isOver(); ++turns) {
        if (turns > firstTurns) {
            m_pause = 0;
            mixWhole();
            remakeRounds(remakeRoundsAtATime, true);
            m_pause = m_work + static_cast<std::int64_t>(shareOfDive * static_cast<double>(m_work));
        }
        dive(m_start, std::min(turns, mostTurns));
    }
}

} // namespace stavewright::cutting
