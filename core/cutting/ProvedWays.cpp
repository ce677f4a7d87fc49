#include "core/cutting/ProvedWays.h"

#include <algorithm>

#include "core/cutting/ClearFill.h"
#include "core/cutting/ClearStock.h"
#include "core/cutting/SmallJob.h"

namespace stavewright::cutting {

namespace {

/// Of solving a small job to the end; about a third of a second.
constexpr std::int64_t mostWorkPerBoard = 20'000'000;
/// Unfinished patterns kept side by side when a single clear board is filled.
constexpr std::size_t mostFillWidth = 4'000;

} // namespace

bool trySmall(SearchState& state) {
    const std::int64_t most = state.options.work > 0
                                  ? std::min(mostWorkPerBoard, state.options.work - state.work)
                                  : mostWorkPerBoard;
    auto plan = solveSmall(state.context, state.models(), state.accounts->demand(), most,
                           state.options.threads, state.interrupt, state.work);
    if (!plan) {
        return false;
    }
    Solution solution = state.accounts->settle(std::move(plan->patterns)).solution;
    const bool isBest = solution.value <= plan->value;
    state.offer(std::move(solution));
    return isBest;
}

bool mixEqualBoards(SearchState& state) {
    ClearStock stock(state.context, state.models(), state.accounts->demand());
    if (!stock.isUsable()) {
        return false;
    }
    stock.solve(state.options.work > 0 ? state.options.work - state.work : 0, state.interrupt,
                [&](std::vector<Pattern> patterns) {
                    state.offer(state.accounts->settle(std::move(patterns)).solution);
                });
    state.work += stock.work();
    return stock.isProved();
}

bool fillClearBoard(SearchState& state) {
    if (state.boards.size() != 1) {
        return false;
    }
    const auto board = ClearBoard::of(state.context, *state.boards[0]);
    if (!board || board->items().size() > ClearFill::mostItems) {
        return false;
    }
    std::vector<Cost> values;
    std::vector<int> limits;
    for (const ClearItem& item : board->items()) {
        const auto k = static_cast<std::size_t>(item.kind);
        values.push_back(state.problem.kinds[k].penaltyUnplaced);
        limits.push_back(
            static_cast<int>(std::max<std::int64_t>(0, state.accounts->demand().open[k])));
    }
    ClearFill fill(*board, std::move(values), std::move(limits));
    if (!fill.isUsable()) {
        return false;
    }
    fill.lowerPrices(100, state.interrupt);
    std::int64_t counted = 0;
    for (std::size_t width = 4; width <= mostFillWidth && !state.isOver(); width *= 3) {
        fill.search(width, state.interrupt);
        state.work += fill.work() - counted;
        counted = fill.work();
        state.offer(state.accounts->settle({board->cut(fill.best())}).solution);
        if (fill.isProved()) {
            return true;
        }
    }
    return false;
}

} // namespace stavewright::cutting
