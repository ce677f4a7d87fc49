#include "core/cutting/SectionWalks.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Walks among known sections, side by side; fixed, so that the number of threads does not
/// matter.
constexpr std::size_t walksPerRound = 8;
/// Steps of a walk: so many for each section that is known, and at most.
constexpr std::size_t stepsPerSection = 10;
constexpr std::size_t mostSteps = 2'000;
/// How far below the best plan others that lack something shall be, in percent of its gap, or of
/// this part of its cost where no bound is known.
constexpr std::array percentBelow = {2, 15, 35, 60};
constexpr Cost partsOfGap = 10;
/// A round that makes the plan cheaper by so much, in parts of it, is followed by another: where
/// boards are many, walks side by side find different things.
constexpr Cost partsGained = 500;

} // namespace

void SectionWalks::walk(SearchState& state) {
    Cost before = 0;
    do {
        before = state.best.value;
        walkOnce(state);
    } while (before - state.best.value > before / partsGained && !state.isOver());
}

bool SectionWalks::learn(SearchState& state) {
    bool isNew = false;
    for (; m_stored < state.columns.size(); ++m_stored) {
        isNew = m_store.add(state.columns.pattern(m_stored)) || isNew;
    }
    for (const Pattern& section : state.met.takeNew()) {
        isNew = m_store.add(section) || isNew;
    }
    return isNew;
}

RemixWish SectionWalks::wishOf(const SearchState& state) {
    RemixWish wish;
    wish.values = state.flooredValues();
    wish.open = state.accounts->demand();
    wish.asked = state.accounts->asked();
    wish.from = state.best.patterns;
    for (const Pattern& pattern : wish.from) {
        m_store.add(pattern);
        wish.columns.push_back(state.columnOf(pattern));
    }
    return wish;
}

std::vector<Remixed> SectionWalks::sideBySide(SearchState& state, const RemixWish& wish,
                                              const std::vector<Cost>& ceilings) {
    std::size_t known = 0;
    for (std::size_t b = 0; b < m_store.boards(); ++b) {
        known += m_store.sectionsOf(b);
    }
    const auto steps = static_cast<int>(std::min(mostSteps, stepsPerSection * known) / m_parts);
    std::vector<Remixed> remixed(ceilings.size());
    const bool done = runItems(
        remixed.size(), state.options.threads,
        [&](std::size_t i) {
            RemixWish mine = wish;
            mine.ceiling = ceilings[i];
            remixed[i] = remix(m_store, state.problem, *state.accounts, mine,
                               state.options.seed * 0x9E3779B97F4A7C15ULL + m_walks + i, steps,
                               state.interrupt);
        },
        state.interrupt);
    m_walks += remixed.size();
    if (!done) {
        return {};
    }
    for (const Remixed& mixed : remixed) {
        state.work += mixed.work;
    }
    return remixed;
}

void SectionWalks::walkOnce(SearchState& state) {
    if (!learn(state) && state.best.value == m_mixedFrom) {
        return; // the last walks found nothing from here
    }
    m_mixedFrom = state.best.value;
    const std::vector<Cost> none(walksPerRound, 0);
    std::vector<std::vector<Pattern>> plans;
    for (Remixed& mixed : sideBySide(state, wishOf(state), none)) {
        std::move(mixed.plans.begin(), mixed.plans.end(), std::back_inserter(plans));
    }
    std::vector<Solution> settled(plans.size());
    const bool done = runItems(
        plans.size(), state.options.threads,
        [&](std::size_t i) { settled[i] = state.accounts->settle(plans[i]).solution; },
        state.interrupt);
    if (!done) {
        return;
    }
    for (std::size_t i = 0; i < plans.size(); ++i) {
        for (const Pattern& pattern : plans[i]) {
            state.learn(pattern);
        }
        state.offer(std::move(settled[i]));
    }
    const bool hasGained = state.best.value < m_mixedFrom;
    m_parts =
        hasGained ? std::min(shortestParts, 2 * m_parts) : std::max<std::size_t>(1, m_parts / 2);
}

std::vector<std::vector<Pattern>> SectionWalks::plansThatLack(SearchState& state) {
    static_cast<void>(learn(state));
    std::vector<Cost> ceilings;
    ceilings.reserve(percentBelow.size());
    const Cost gap =
        state.best.value - state.bound.value_or(state.best.value - state.best.value / partsOfGap);
    for (const int percent : percentBelow) {
        ceilings.push_back(state.best.value - gap * percent / 100 - 1);
    }
    std::vector<std::vector<Pattern>> plans;
    for (Remixed& mixed : sideBySide(state, wishOf(state), ceilings)) {
        if (!mixed.plans.empty() && !mixed.plans.front().empty()) {
            plans.push_back(std::move(mixed.plans.front()));
        }
    }
    return plans;
}

} // namespace stavewright::cutting
