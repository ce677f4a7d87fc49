#include "core/cutting/Attempt.h"

#include <algorithm>
#include <functional>
#include <numeric>

#include "core/cutting/Groups.h"
#include "core/cutting/Random.h"

namespace stavewright::cutting {

Attempt attempt(const SearchState& state, std::uint64_t number) {
    Random random(state.options.seed * 0x9E3779B97F4A7C15ULL + number);
    // At random, but rather boards on which the plan and the mix in fractions disagree.
    const auto inOrder = [&](std::vector<std::size_t> items, const auto& likelihood) {
        std::vector<std::pair<double, std::size_t>> keyed;
        keyed.reserve(items.size());
        for (const std::size_t item : items) {
            keyed.emplace_back(likelihood(item) + static_cast<double>(random.below(1000)) / 1000,
                               item);
        }
        std::sort(keyed.begin(), keyed.end(), std::greater<>());
        for (std::size_t i = 0; i < items.size(); ++i) {
            items[i] = keyed[i].second;
        }
        return items;
    };
    std::vector<std::size_t> used(state.best.patterns.size());
    std::iota(used.begin(), used.end(), std::size_t{0});
    // Now and then one board is cut for a group that is apart; what gave parts of it is freed.
    constexpr std::uint64_t oneInGathers = 4;
    const std::optional<Gathering> gathering =
        number % oneInGathers == 0 ? gatheringFor(state.problem, state.best.patterns, random)
                                   : std::nullopt;
    const auto isConcerned = [&](const Pattern& pattern) {
        return gathering && (static_cast<std::size_t>(pattern.board) == gathering->board ||
                             holds(state.problem, pattern, gathering->group));
    };
    used = inOrder(std::move(used), [&](std::size_t i) {
        return 1 - state.shares[static_cast<std::size_t>(state.best.patterns[i].board)] +
               (isConcerned(state.best.patterns[i]) ? 10 : 0);
    });
    std::size_t freed = 3 + random.below(6);
    freed = std::max<std::size_t>(
        freed, static_cast<std::size_t>(std::count_if(state.best.patterns.begin(),
                                                      state.best.patterns.end(), isConcerned)));
    freed = std::min(used.size(), freed);

    std::vector<bool> taken(state.menus.size(), false);
    std::vector<Pattern> patterns;
    double keptCost = 0;
    PartWish wish;
    wish.open = state.accounts->asked();
    wish.values = state.values;
    std::int64_t workOfGathering = 0;
    if (gathering) {
        taken[gathering->board] = true;
        Offer offer = state.bestFor(gathering->board,
                                    favouring(state.problem, state.values, gathering->group),
                                    wish.open, random, workOfGathering);
        if (state.interrupt.isCalled()) {
            return {};
        }
        if (!offer.pattern.sections.empty()) {
            wish.open -= state.accounts->yieldOf(offer.pattern);
            keptCost += static_cast<double>(columnOf(state.context, *state.accounts,
                                                     *state.boards[gathering->board], offer.pattern)
                                                .cost);
            patterns.push_back(std::move(offer.pattern));
        }
    }
    for (std::size_t i = 0; i < used.size(); ++i) {
        const Pattern& pattern = state.best.patterns[used[i]];
        const auto board = static_cast<std::size_t>(pattern.board);
        if (gathering && board == gathering->board) {
            continue; // it has its pattern
        }
        taken[board] = true;
        if (i < freed) {
            wish.boards.push_back(board);
            continue;
        }
        wish.open -= state.accounts->yieldOf(pattern);
        keptCost += static_cast<double>(
            columnOf(state.context, *state.accounts, *state.boards[board], pattern).cost);
        patterns.push_back(pattern);
    }
    std::vector<std::size_t> untouched;
    for (std::size_t b = 0; b < taken.size(); ++b) {
        if (!taken[b]) {
            untouched.push_back(b);
        }
    }
    untouched = inOrder(std::move(untouched), [&](std::size_t b) { return state.shares[b]; });
    untouched.resize(std::min<std::size_t>(untouched.size(), 8));
    wish.boards.insert(wish.boards.end(), untouched.begin(), untouched.end());
    std::sort(wish.boards.begin(), wish.boards.end());

    wish.marginPercent = static_cast<int>(random.below(13));
    wish.rounds = 1;
    wish.below = static_cast<double>(state.best.value) - keptCost - 1;
    for (std::size_t b = 0; b < state.menus.size(); ++b) {
        wish.dearness.push_back(random.between(90, 110));
    }

    wish.kept = patterns;
    Attempt result;
    result.part = solvePart(state.stock, state.columns, wish, state.interrupt);
    result.part.work += workOfGathering;
    if (state.interrupt.isCalled()) {
        return result;
    }
    for (const std::vector<Pattern>* proposal : {&result.part.patterns, &result.part.dived}) {
        std::vector<Pattern> whole = patterns;
        whole.insert(whole.end(), proposal->begin(), proposal->end());
        Solution solution = complete(state.stock, state.values, std::move(whole), wish.boards,
                                     state.interrupt, result.part.work);
        if (!result.made || solution.value < result.solution.value) {
            result.solution = std::move(solution);
            result.made = true;
        }
    }
    return result;
}

} // namespace stavewright::cutting
