#include "core/cutting/SearchPlans.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <optional>

#include "core/cutting/Draws.h"
#include "core/cutting/WholeMix.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Boards asked at a time for the first plan; fixed, so that the number of threads does not matter.
constexpr std::size_t boardsAtOnce = 2;
/// So many boards take long to be asked again and again.
constexpr std::size_t manyBoards = 16;
/// How far off drawn prices are, in percent, of plans that are built side by side.
constexpr std::array<std::int64_t, 4> pricesOff = {3, 8, 13, 18};
/// Nodes of a mix of whole columns, however many columns there are.
constexpr int fewestNodes = 200;
constexpr int mostNodes = 6'000;

/// Board by board, each asked so often; nothing where it is cut off and there is a plan already.
std::optional<Solution> builtWhole(SearchState& state, int times) {
    const std::size_t count = state.menus.size();
    std::vector<Offer> offers(count);
    std::vector<std::int64_t> work(count, 0);
    const bool done = runItems(
        count, state.options.threads,
        [&](std::size_t b) {
            offers[b] = bestWithin(state.stock, b, state.values, state.accounts->demand(),
                                   state.interrupt, work[b], times);
        },
        state.interrupt);
    if (!done && state.hasBest) {
        return std::nullopt;
    }
    state.work = std::accumulate(work.begin(), work.end(), state.work);
    const std::vector<std::size_t> boards = state.allBoards();
    Construction made =
        construct(state.stock, state.values, state.accounts->demand(), boards, &offers,
                  {boardsAtOnce, state.options.threads, times}, state.interrupt);
    state.work += made.work;
    return complete(state.stock, state.values, std::move(made.patterns), boards, state.interrupt,
                    state.work);
}

} // namespace

bool buildWhole(SearchState& state) {
    // Asked once only, the boards give a plan in half the time; but one that lacks something is not
    // worth showing while a better one is being made.
    std::optional<Solution> quick;
    if (state.menus.size() >= manyBoards) {
        const std::int64_t before = state.work;
        quick = builtWhole(state, 1);
        state.work = before; // most of what it asks is asked again for the better one, and counts
        if (quick && std::all_of(quick->unplaced.begin(), quick->unplaced.end(),
                                 [](int count) { return count == 0; })) {
            state.offer(*quick);
        }
    }
    std::optional<Solution> better = builtWhole(state, timesAsked);
    if (better) {
        state.offer(std::move(*better));
    }
    if (quick) {
        state.offer(std::move(*quick));
    }
    return better.has_value();
}

void buildAtDrawnPrices(SearchState& state, std::uint64_t number) {
    const Stock stock = knowingAllKinds(state.stock);
    struct Built {
        Solution plan;
        std::vector<Pattern> patterns;
        std::int64_t work = 0;
    };
    std::vector<Built> built(pricesOff.size());
    const bool done = runItems(
        built.size(), state.options.threads,
        [&](std::size_t i) {
            Random random(state.options.seed * 0x9E3779B97F4A7C15ULL + number * built.size() + i);
            const Values values = drawnPrices(state.estimate, pricesOff[i], random);
            Construction made = construct(stock, values, state.accounts->demand(),
                                          state.allBoards(), nullptr, {}, state.interrupt);
            built[i].patterns = made.patterns;
            built[i].work = made.work;
            built[i].plan = complete(stock, values, std::move(made.patterns), state.allBoards(),
                                     state.interrupt, built[i].work);
        },
        state.interrupt);
    if (!done) {
        return;
    }
    for (Built& each : built) {
        state.work += each.work;
        for (Pattern& pattern : each.patterns) {
            state.learn(std::move(pattern));
        }
        state.offer(std::move(each.plan));
    }
}

void diveWhole(SearchState& state) {
    PartWish wish;
    wish.open = state.accounts->asked();
    wish.values = state.values;
    wish.diveRounds = 1;
    wish.boards = state.allBoards();
    // Larger steps are quicker, smaller ones come closer.
    constexpr std::array<int, 2> steps = {4, 9};
    std::vector<PartResult> results(steps.size());
    const Stock stock = knowingAllKinds(state.stock);
    const bool done = runItems(
        steps.size(), state.options.threads,
        [&](std::size_t i) {
            results[i] = divePart(stock, state.columns, wish, steps[i], state.interrupt);
        },
        state.interrupt);
    if (!done) {
        return;
    }
    for (PartResult& result : results) {
        state.work += result.work;
        remember(state, result);
        state.offer(complete(state.stock, state.values, std::move(result.dived), wish.boards,
                             state.interrupt, state.work));
    }
}

void remember(SearchState& state, PartResult& part) {
    for (std::size_t i = 0; i < part.newPatterns.size(); ++i) {
        state.columns.add(std::move(part.newPatterns[i]), std::move(part.newColumns[i]));
    }
}

std::vector<std::size_t> bestMix(const SearchState& state, std::size_t nodeColumns) {
    std::vector<std::size_t> ids(state.columns.size());
    std::iota(ids.begin(), ids.end(), std::size_t{0});
    const auto nodes = static_cast<int>(nodeColumns / (state.columns.size() + 1));
    return wholeMix(
        state.context, state.columns, ids, {state.accounts->asked(), state.accounts.get(), {}},
        {std::clamp(nodes, fewestNodes, mostNodes), static_cast<double>(state.best.value)},
        state.interrupt);
}

void offerMix(SearchState& state, const std::vector<std::size_t>& ids) {
    if (ids.empty() || state.interrupt.isCalled()) {
        return;
    }
    std::vector<Pattern> patterns;
    patterns.reserve(ids.size());
    for (const std::size_t id : ids) {
        patterns.push_back(state.columns.pattern(id));
    }
    state.offer(complete(state.stock, state.values, std::move(patterns), state.allBoards(),
                         state.interrupt, state.work));
}

} // namespace stavewright::cutting
