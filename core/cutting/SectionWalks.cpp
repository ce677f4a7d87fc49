#include "core/cutting/SectionWalks.h"

#include <algorithm>

#include "core/cutting/Remix.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Walks among known sections, side by side; fixed, so that the number of threads does not
/// matter.
constexpr std::size_t walksPerRound = 8;
/// Steps of a walk: so many for each section that is known, and at most.
constexpr std::size_t stepsPerSection = 10;
constexpr std::size_t mostSteps = 2'000;
/// A round that makes the plan cheaper by so much, in parts of it, is followed by another: where
/// boards are many, walks side by side find different things.
constexpr Cost partsGained = 500;
/// What the mix in fractions has too much of is still worth so many parts of the first guess.
constexpr Cost partsOfGuess = 5;

} // namespace

void SectionWalks::walk(SearchState& state) {
    Cost before = 0;
    do {
        before = state.best.value;
        walkOnce(state);
    } while (before - state.best.value > before / partsGained && !state.isOver());
}

void SectionWalks::walkOnce(SearchState& state) {
    bool isNew = state.best.value != m_mixedFrom;
    for (; m_stored < state.columns.size(); ++m_stored) {
        isNew = m_store.add(state.columns.pattern(m_stored)) || isNew;
    }
    if (!isNew) {
        return; // the last walks went everywhere from here
    }
    m_mixedFrom = state.best.value;
    RemixWish wish;
    wish.values = state.values;
    for (std::size_t k = 0; k < state.problem.kinds.size(); ++k) {
        if (!state.problem.kinds[k].isPool) {
            wish.values.each[k] =
                std::max(wish.values.each[k], state.estimate.each[k] / partsOfGuess);
        }
        wish.values.perMetre[k] =
            std::max(wish.values.perMetre[k], state.estimate.perMetre[k] / partsOfGuess);
    }
    wish.open = state.accounts->demand();
    wish.asked = state.accounts->asked();
    wish.from = state.best.patterns;
    for (const Pattern& pattern : wish.from) {
        m_store.add(pattern);
        wish.columns.push_back(state.columnOf(pattern));
    }
    std::size_t known = 0;
    for (std::size_t b = 0; b < m_store.boards(); ++b) {
        known += m_store.sectionsOf(b);
    }
    const auto steps = static_cast<int>(std::min(mostSteps, stepsPerSection * known));
    std::vector<Remixed> remixed(walksPerRound);
    const bool done = runItems(
        remixed.size(), state.options.threads,
        [&](std::size_t i) {
            remixed[i] = remix(m_store, state.problem, *state.accounts, wish,
                               state.options.seed * 0x9E3779B97F4A7C15ULL + m_walks + i, steps,
                               state.interrupt);
        },
        state.interrupt);
    m_walks += remixed.size();
    if (!done) {
        return;
    }
    for (Remixed& mixed : remixed) {
        state.work += mixed.work;
        for (std::vector<Pattern>& plan : mixed.plans) {
            for (const Pattern& pattern : plan) {
                state.columns.add(pattern, state.columnOf(pattern));
            }
            state.offer(state.accounts->settle(std::move(plan)).solution);
        }
    }
}

} // namespace stavewright::cutting
