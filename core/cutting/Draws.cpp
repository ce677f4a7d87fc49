#include "core/cutting/Draws.h"

#include <algorithm>
#include <iterator>
#include <numeric>

#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// How far off drawn prices are, in percent.
constexpr std::int64_t drawnOff = 20;
/// Boards of the plan that are taken to be empty, at most, and others that are tried besides.
constexpr std::size_t mostEmptied = 4;
constexpr std::size_t mostOthers = 3;

/// Boards with what is wanted of them.
struct Rest {
    std::vector<std::size_t> boards;
    Demand open;
};

Rest drawRest(const SearchState& state, Random& random) {
    std::vector<const Pattern*> plan;
    for (const Pattern& pattern : state.best.patterns) {
        plan.push_back(&pattern);
    }
    random.shuffle(plan);
    const std::size_t emptied = std::min<std::size_t>(plan.size(), 1 + random.below(mostEmptied));
    Rest rest;
    rest.open = state.accounts->asked();
    std::vector<std::size_t> others = state.allBoards();
    for (std::size_t i = 0; i < plan.size(); ++i) {
        const auto board = static_cast<std::size_t>(plan[i]->board);
        std::erase(others, board);
        if (i < emptied) {
            rest.boards.push_back(board);
        } else {
            rest.open -= state.accounts->yieldOf(*plan[i]);
        }
    }
    random.shuffle(others);
    others.resize(std::min(others.size(), mostOthers));
    rest.boards.insert(rest.boards.end(), others.begin(), others.end());
    return rest;
}

/// Works patterns out, each by make(i, work, seen), and learns them with what was seen on the way;
/// nothing when interrupted.
template <class Make>
void learn(SearchState& state, std::size_t count, const Make& make) {
    std::vector<Pattern> patterns(count);
    std::vector<std::vector<SeenSections>> seen(count);
    std::vector<std::int64_t> work(count, 0);
    const bool done = runItems(
        count, state.options.threads,
        [&](std::size_t i) { patterns[i] = make(i, work[i], seen[i]); }, state.interrupt);
    if (!done) {
        return;
    }
    state.work = std::accumulate(work.begin(), work.end(), state.work);
    std::vector<SeenSections> all;
    for (std::vector<SeenSections>& each : seen) {
        std::move(each.begin(), each.end(), std::back_inserter(all));
    }
    state.learn(all);
    for (Pattern& pattern : patterns) {
        if (!pattern.sections.empty()) {
            state.learn(std::move(pattern));
        }
    }
}

Random randomFor(const SearchState& state, std::uint64_t number) {
    return Random(state.options.seed * 0xD1B54A32D192ED03ULL + number);
}

} // namespace

Values drawnPrices(const Values& about, std::int64_t off, Random& random) {
    Values drawn = about;
    for (std::size_t k = 0; k < drawn.each.size(); ++k) {
        const std::int64_t percent = random.between(100 - off, 100 + off);
        drawn.each[k] = drawn.each[k] * percent / 100;
        drawn.perMetre[k] = drawn.perMetre[k] * percent / 100;
    }
    return drawn;
}

void drawColumns(SearchState& state, std::uint64_t number, int draws) {
    Random random = randomFor(state, number);
    std::vector<Values> values;
    for (int draw = 0; draw < draws; ++draw) {
        values.push_back(drawnPrices(state.values, drawnOff, random));
    }
    const std::size_t count = state.menus.size();
    using Seen = std::vector<SeenSections>;
    learn(state, count * values.size(), [&](std::size_t i, std::int64_t& work, Seen& seen) {
        const Values& drawn = values[i / count];
        const BoardPricing& menu = *state.menus[i % count];
        const BoardChoice choice = i / count % 2 == 0
                                       ? menu.best(drawn, state.interrupt, work)
                                       : menu.bestOfMore(drawn, state.interrupt, work);
        if (!choice.near.empty()) {
            seen.push_back({i % count, drawn, choice.near});
        }
        return menu.cut(drawn, choice);
    });
}

void drawForRest(SearchState& state, std::uint64_t number, int draws) {
    struct Task {
        std::size_t board;
        std::size_t draw;
    };
    Random random = randomFor(state, number);
    std::vector<Values> values;
    std::vector<Rest> rests;
    std::vector<Task> tasks;
    for (int draw = 0; draw < draws; ++draw) {
        values.push_back(drawnPrices(state.values, drawnOff, random));
        rests.push_back(drawRest(state, random));
        for (const std::size_t board : rests.back().boards) {
            tasks.push_back({board, rests.size() - 1});
        }
    }
    std::vector<std::uint64_t> seeds;
    for (std::size_t i = 0; i < tasks.size(); ++i) {
        seeds.push_back(number * 1'000 + i);
    }
    using Seen = std::vector<SeenSections>;
    learn(state, tasks.size(), [&](std::size_t i, std::int64_t& work, Seen& seen) {
        const auto& [board, draw] = tasks[i];
        Random own(seeds[i]);
        return state.bestFor(board, values[draw], rests[draw].open, own, work, &seen).pattern;
    });
}

} // namespace stavewright::cutting
