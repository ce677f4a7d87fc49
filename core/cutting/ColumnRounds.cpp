#include "core/cutting/ColumnRounds.h"

#include <algorithm>
#include <numeric>

#include "core/cutting/Master.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// A column must promise at least this much (a hundredth of the currency).
constexpr double leastGain = 100;
/// The centre's share in the prices that are asked, in tenths.
constexpr int tenthsOfCentre = 6;
/// So near, in parts of the mix, what the menus know is used up.
constexpr double nearEnough = 0.004;

/// What all that is asked for is worth under prices.
double worthOfDemand(const SearchState& state, const Values& values) {
    const Demand& demand = state.accounts->demand();
    double worth = 0;
    for (std::size_t k = 0; k < state.problem.kinds.size(); ++k) {
        const auto open = static_cast<double>(std::max<std::int64_t>(0, demand.open[k]));
        const auto each = static_cast<double>(values.each[k]);
        if (!state.problem.kinds[k].isPool) {
            worth += each * open;
            continue;
        }
        // Staves that cost something by number are as many as they may be, else as few as they
        // must.
        const std::int64_t staves =
            each < 0 ? demand.staves[k] : std::max<std::int64_t>(0, demand.fewest[k]);
        worth += static_cast<double>(values.perMetre[k]) * open /
                     static_cast<double>(nanometresPerMetre) +
                 each * static_cast<double>(staves);
    }
    return worth;
}

/// What the best of a board's columns is worth under prices; a menu of few kinds may not have it.
Cost worthKnown(const SearchState& state, std::size_t board, const Values& values) {
    Cost best = 0;
    for (const std::size_t id : state.columns.ofBoard(board)) {
        const Column& column = state.columns.column(id);
        best = std::max(best, worthOf(state.problem, column.yield, values) -
                                  (column.cost - state.boards[board]->price()));
    }
    return best;
}

} // namespace

bool generateColumns(SearchState& state, int rounds) {
    const std::size_t count = state.menus.size();
    // Where something cannot be had, a little more of it is worth all that leaving it out costs.
    const bool isShort = std::any_of(state.best.unplaced.begin(), state.best.unplaced.end(),
                                     [](int unplaced) { return unplaced > 0; });
    Master master(state.context, count, state.accounts->demand(),
                  isShort ? nullptr : &state.estimate);
    // True when the column promises a gain at the master's duals.
    const auto take = [&](Pattern pattern, const Master* asked) {
        Column column = state.columnOf(pattern);
        if (asked != nullptr && asked->gainOf(column) <= leastGain) {
            return false;
        }
        if (!state.columns.add(std::move(pattern), column)) {
            return false;
        }
        master.add(state.columns.size() - 1, column);
        return true;
    };
    for (std::size_t c = 0; c < state.columns.size(); ++c) {
        master.add(c, state.columns.column(c));
    }
    for (const Pattern& pattern : state.best.patterns) {
        take(pattern, nullptr);
    }
    // The master's duals leap about; prices between them and the best prices so far need fewer
    // rounds.
    Values centre = state.values;
    double centreBound = 0;
    int pull = tenthsOfCentre;
    for (int round = 0; round < rounds && !state.isOver(); ++round) {
        if (!master.solve()) {
            return true; // the values stay as they are
        }
        const Values values = between(master.values(), centre, pull);
        std::vector<std::int64_t> work(count, 0);
        std::vector<Pattern> patterns(count);
        std::vector<SeenSections> seen(count);
        std::vector<Cost> worth(count, 0);
        const bool done = runItems(
            count, state.options.threads,
            [&](std::size_t b) {
                BoardChoice choice = state.menus[b]->rebase(values, state.interrupt, work[b]);
                worth[b] = choice.value;
                patterns[b] = state.menus[b]->cut(values, choice);
                seen[b] = {b, values, std::move(choice.near)};
            },
            state.interrupt);
        if (!done) {
            return false;
        }
        state.work = std::accumulate(work.begin(), work.end(), state.work);
        state.learn(seen);
        // And per board the least reduced cost when negative.
        double bound = worthOfDemand(state, values);
        bool anyBetter = false;
        for (std::size_t b = 0; b < count; ++b) {
            const Cost price = state.boards[b]->price();
            if (state.hasManyKinds) {
                worth[b] = std::max(worth[b], worthKnown(state, b, values));
            }
            bound += static_cast<double>(std::min<Cost>(0, price - worth[b]));
            if (!patterns[b].sections.empty()) {
                anyBetter = take(std::move(patterns[b]), &master) || anyBetter;
            }
        }
        if (round == 0 || bound > centreBound) {
            centre = values;
            centreBound = bound;
        }
        const bool isNear = master.value() - centreBound < nearEnough * master.value();
        if (isNear || (!anyBetter && pull == 0)) {
            break; // what the menus know is used up
        }
        // Where the prices between hide it, the duals themselves are asked.
        pull = anyBetter ? tenthsOfCentre : 0;
    }
    state.values = centre;
    if (master.solve()) {
        state.mixed = master.value();
        state.shares.assign(count, 0);
        for (const auto& [share, id] : master.shares()) {
            state.shares[state.columns.column(id).board] += share;
        }
    }
    return !state.interrupt.isCalled();
}

} // namespace stavewright::cutting
