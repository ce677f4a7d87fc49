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

/// Dives over equal boards where more counts than boards, cuts and what is left out.
constexpr int divesBesides = 4;

/// Only boards, cuts and what is left out count: neither offcuts nor groups.
bool isPlainlyPriced(const Problem& problem) {
    return problem.limits.offcutWorthPercent <= 0 &&
           std::none_of(problem.kinds.begin(), problem.kinds.end(),
                        [](const Kind& kind) { return kind.group >= 0; });
}

/// The best plan costs no more than any can; where groups lie apart none may cost as little.
bool isReached(const SearchState& state) {
    return state.bound && state.hasBest && state.best.value <= *state.bound;
}

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
    const std::int64_t left = state.options.work > 0 ? state.options.work - state.work : 0;
    const int dives = isPlainlyPriced(state.problem) ? 0 : divesBesides;
    stock.solve({left, state.options.threads, state.options.seed, dives}, state.interrupt,
                [&](std::vector<Pattern> patterns) {
                    state.offer(state.accounts->settle(std::move(patterns)).solution);
                });
    state.work += stock.work();
    state.bound = std::max(state.bound, stock.bound());
    return isReached(state);
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
    // Offcuts may be worth something besides, of which the fill knows nothing.
    const bool isBound = state.problem.limits.offcutWorthPercent <= 0;
    const Cost empty = state.accounts->settle({}).solution.value;
    const Cost price = state.boards[0]->price();
    fill.lowerPrices(100, state.interrupt);
    std::int64_t counted = 0;
    for (std::size_t width = 4; width <= mostFillWidth && !state.isOver(); width *= 3) {
        fill.search(width, state.interrupt);
        state.work += fill.work() - counted;
        counted = fill.work();
        state.offer(state.accounts->settle({board->cut(fill.best())}).solution);
        if (isBound) {
            state.bound = std::max(state.bound,
                                   std::optional(empty + std::min<Cost>(0, price - fill.bound())));
        }
        if (fill.isProved()) {
            return isReached(state);
        }
    }
    return false;
}

} // namespace stavewright::cutting
