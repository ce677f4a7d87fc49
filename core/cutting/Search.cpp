#include "core/cutting/Search.h"

#include <algorithm>

#include "core/cutting/Attempt.h"
#include "core/cutting/ColumnRounds.h"
#include "core/cutting/Draws.h"
#include "core/cutting/Mending.h"
#include "core/cutting/ProvedWays.h"
#include "core/cutting/SearchPlans.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Attempts judged together; fixed, so that the number of threads does not matter.
constexpr std::size_t attemptsPerRound = 4;
/// Counted for every attempt, so that a limit in work ends even a search that finds nothing to do.
constexpr std::int64_t leastWork = 1'000;
/// Prices drawn at random for a round of improvement; fewer where each asks many boards.
constexpr int drawsPerRound = 16;
/// The same between proofs, each for all that parts of the plan lack: where boards are few, it asks
/// few of them.
constexpr int fewestBetweenProofs = 4;
constexpr int mostBetweenProofs = 10;
constexpr int boardsBetweenProofs = 120;
constexpr int fewestDraws = 3;
constexpr int boardsDrawn = 600;
/// How often improving the plan is put off for the bounds.
constexpr int timesProved = 12;
/// How often it goes on being put off while the bounds have far to go.
constexpr int mostFar = 6;
constexpr int mostFarOfMany = 1; ///< where the kinds are many: each proof takes long
/// Rounds of attempts before the first proof, where a group lies on several boards.
constexpr int roundsOfGathering = 2;
/// Rounds without a better plan before the bounds are asked.
constexpr int roundsStill = 2;
/// And no less work than so many parts of what a proof took: where boards are few, it asks them
/// many times.
constexpr std::int64_t partsOfProof = 3;
/// Rounds between those in which what is slow gave nothing, at most.
constexpr int mostRest = 5;
/// With more boards a dive takes longer than it is worth.
constexpr std::size_t mostDived = 16;
/// Nodes times columns that a mix of whole patterns may take: between rounds, and while the bound
/// is looked for.
constexpr std::size_t shortMix = 40'000;
constexpr std::size_t longMix = 100'000;
/// Rounds of pricing: with quick menus, with the usual ones, and after a proof has widened them.
constexpr int roundsQuick = 12;
constexpr int roundsUsual = 4;
constexpr int roundsWidened = 6;
constexpr int fewestWidened = 2; ///< where each asks many boards
constexpr int boardsWidened = 360;
/// Where the kinds are many: rounds without a better plan before the first proof, and no more than
/// so many times the work until then.
constexpr int roundsStillFirst = 4;
constexpr std::int64_t partsOfFirst = 1;
/// Choices of few kinds that are mixed, at most, rounds of pricing for each, and the gain, in parts
/// of the mix, that ends it when it is missed so often in a row.
constexpr int mostChoices = 30;
constexpr int roundsOfChoice = 4;
constexpr double partsOfMix = 200;
constexpr int mostVain = 2;

} // namespace

bool Search::generate(int rounds) {
    if (!generateColumns(m_state, rounds)) {
        return false;
    }
    const Cost before = m_state.best.value;
    m_walks.walk(m_state);
    // Walks are quicker than dives and mixes, and mostly better; but they only know what was met,
    // and nothing of groups.
    const bool isStuck = m_state.best.value >= before && !m_state.isOver();
    const bool dives = m_state.menus.size() <= mostDived || m_state.best.groupsApart > 0;
    // Where boards are many, what a first proof will show finds more than mixing what is known.
    const bool mixes = isStuck && (m_state.bound || dives);
    if ((mixes || m_state.best.groupsApart > 0) && !m_state.interrupt.isCalled()) {
        if (dives) {
            diveWhole(m_state);
        }
        if (m_restOfMixing.isOver()) {
            take(bestMix(m_state, shortMix));
        }
        m_walks.walk(m_state);
    }
    return !m_state.interrupt.isCalled();
}

bool Search::proofsShowMost() const {
    const Cost gap = m_state.best.value - m_state.bound.value_or(0);
    return m_proving.isFarFromTold() && m_proving.lacks() > gap / 2;
}

bool Search::proveAndMix(int times) {
    Proving::Made made;
    std::vector<std::size_t> mix;
    bool proved = false;
    // Told before the proof goes on: what it says meanwhile depends on which of the two is quicker.
    const bool mixes = times > 0 && !m_proving.isFarFromTold() && // else walks find more
                       m_restOfMixing.isOver();
    const bool done = runItems(
        2, m_state.options.threads,
        [&](std::size_t i) {
            if (i == 0) {
                proved = m_proving.prove(m_state, times, made);
            } else if (mixes) {
                mix = bestMix(m_state, longMix);
            }
        },
        m_state.interrupt);
    m_proving.take(m_state, std::move(made));
    if (mixes) {
        take(mix);
    }
    return done && proved;
}

void Search::take(const std::vector<std::size_t>& mix) {
    const Cost before = m_state.best.value;
    offerMix(m_state, mix);
    m_restOfMixing.note(m_state.best.value < before);
}

int Search::timesFor(int shared, int fewest, int most) const {
    const int boards = std::max(1, static_cast<int>(m_state.menus.size()));
    return std::clamp(shared / boards, fewest, most);
}

int Search::drawsBetweenProofs() const {
    return timesFor(boardsBetweenProofs, fewestBetweenProofs, mostBetweenProofs);
}

void Search::improveFirst(std::int64_t workSoFar) {
    for (int still = 0; still < roundsStillFirst && m_state.work < (1 + partsOfFirst) * workSoFar &&
                        !m_state.isOver();) {
        const Cost value = m_state.best.value;
        buildAtDrawnPrices(m_state, m_draws++);
        m_walks.walk(m_state);
        drawAndWalk(drawsBetweenProofs());
        still = m_state.best.value < value ? 0 : still + 1;
    }
}

void Search::mixManyKinds() {
    const Fineness quick = Fineness::quick();
    for (int choice = 0, vain = 0; choice < mostChoices && vain < mostVain && !m_state.isOver();
         ++choice) {
        const double before = m_state.mixed; // 0: nothing was mixed yet
        if (!m_state.prepare(&quick) || !generateColumns(m_state, roundsOfChoice)) {
            return;
        }
        vain = before > 0 && before - m_state.mixed < before / partsOfMix ? vain + 1 : 0;
    }
    m_walks.walk(m_state);
}

void Search::drawAndWalk(int draws) {
    if (m_state.hasManyKinds && !m_state.isOver()) { // others than before
        const Fineness usual = Fineness::usual();
        static_cast<void>(m_state.prepare(&usual));
    }
    drawForRest(m_state, m_draws++, draws);
    m_walks.walk(m_state);
    drawColumns(m_state, m_draws++, timesFor(boardsDrawn, fewestDraws, draws));
    m_walks.walk(m_state);
    if (m_restOfMending.isOver()) {
        const Cost before = m_state.best.value;
        mend(m_state, m_walks.plansThatLack(m_state), m_draws++);
        m_walks.walk(m_state);
        m_restOfMending.note(m_state.best.value < before);
    }
    m_state.work += leastWork;
}

bool Search::Rest::isOver() {
    if (m_left == 0) {
        return true;
    }
    --m_left;
    return false;
}

void Search::Rest::note(bool gained) {
    m_vain = gained ? 0 : m_vain + 1;
    m_left = std::min(m_vain, mostRest);
}

bool Search::attemptAll() {
    std::vector<Attempt> attempts(attemptsPerRound);
    const bool done = runItems(
        attempts.size(), m_state.options.threads,
        [&](std::size_t i) { attempts[i] = attempt(m_state, m_attempts + i); }, m_state.interrupt);
    if (!done) {
        return false;
    }
    m_attempts += attempts.size();
    for (Attempt& made : attempts) {
        m_state.work += made.part.work + leastWork;
        remember(m_state, made.part);
    }
    const Cost before = m_state.best.value;
    for (Attempt& made : attempts) {
        if (made.made) {
            m_state.offer(std::move(made.solution));
        }
    }
    m_restOfAttempts.note(m_state.best.value < before);
    return true;
}

void Search::improve(int rounds) {
    for (int round = 0; (rounds == 0 || round < rounds) && !m_state.isOver(); ++round) {
        drawAndWalk(drawsPerRound);
        if (m_restOfAttempts.isOver() && (m_state.interrupt.isCalled() || !attemptAll())) {
            break;
        }
    }
}

void Search::improveUntilStill(std::int64_t workOfProof) {
    const std::int64_t before = m_state.work;
    for (int still = 0;
         (still < roundsStill || m_state.work - before < workOfProof / partsOfProof) &&
         !m_state.isOver();) {
        const Cost value = m_state.best.value;
        drawAndWalk(drawsBetweenProofs());
        still = m_state.best.value < value ? 0 : still + 1;
    }
}

std::optional<Cost> Search::boundAlone() {
    // What a round must gain at least for another one to be worth its time, in parts of the bound.
    constexpr Cost leastRaise = 500;
    const Fineness quick = Fineness::quick();
    if (!m_state.prepare(nullptr)) {
        return m_state.byArea;
    }
    buildWhole(m_state);
    if (m_state.isOver() || !m_state.prepare(&quick)) {
        return m_state.byArea;
    }
    for (const auto& menu : m_state.menus) {
        menu->tellNear(0); // no plan is put together from them
    }
    if (m_state.hasManyKinds) {
        mixManyKinds();
    } else if (!generateColumns(m_state, roundsQuick)) {
        return m_state.byArea;
    }
    m_proving.beginBelow(m_state.values);
    for (int times = 0; times < timesProved && !m_state.isOver(); ++times) {
        const Cost before = m_state.bound.value_or(0);
        Proving::Made made;
        const bool done = m_proving.prove(m_state, times, made);
        m_proving.take(m_state, std::move(made));
        const Cost raised = m_state.bound.value_or(0) - before;
        if (!done || (times > 1 && raised < before / leastRaise) ||
            !generateColumns(m_state, roundsWidened)) {
            break;
        }
    }
    return std::max(m_state.bound, m_state.byArea);
}

void Search::proveAndImprove() {
    const Fineness quick = Fineness::quick();
    const Fineness usual = Fineness::usual();
    if (m_state.isOver() || !m_state.prepare(&quick) || !generate(roundsQuick) ||
        m_state.isOver() || !m_state.prepare(&usual) || !generate(roundsUsual)) {
        return;
    }
    if (m_state.best.groupsApart > 0) {
        improve(roundsOfGathering); // neither walks nor the bounds know of groups
    }
    if (m_state.hasManyKinds) {
        improveFirst(m_state.work);
        mixManyKinds();
    }
    m_proving.beginBelow(m_state.values);
    // Each time the bounds know the prices better, and the menus the sections.
    for (int times = 0; times < timesProved && !m_state.isOver(); ++times) {
        const std::int64_t before = m_state.work;
        bool proved = proveAndMix(times);
        m_walks.walk(m_state);
        const int mostMore = m_state.hasManyKinds ? mostFarOfMany : mostFar;
        for (int more = 0; proved && more < mostMore && proofsShowMost() && !m_state.isOver();
             ++more) {
            proved = proveAndMix(times);
        }
        if (!proved) {
            break;
        }
        const std::int64_t workOfProof = m_state.work - before;
        if (m_state.hasManyKinds && !m_state.prepare(&usual)) {
            break;
        }
        if (!generate(timesFor(boardsWidened, fewestWidened, roundsWidened))) {
            break;
        }
        if (times == 0) {
            drawAndWalk(drawsBetweenProofs());
        } else {
            improveUntilStill(workOfProof);
        }
    }
    improve(0);
}

Solution Search::run() {
    Solution& best = m_state.best;
    // The clear boards first: they have a plan at once.
    bool isProved = fillClearBoard(m_state) || (mixEqualBoards(m_state) && best.groupsApart == 0);
    const bool isOver = m_state.hasBest && m_state.isOver();
    if (!isProved && !isOver && m_state.prepare(nullptr)) {
        buildWhole(m_state);
        isProved = !m_state.isOver() && trySmall(m_state);
        if (!isProved) {
            proveAndImprove();
        }
    }
    if (!isProved) {
        if (!m_state.hasBest) {
            best = m_state.accounts->settle({}).solution;
        }
        // Evened out it may be cheaper, and then whoever watches hears of it; else it is no dearer.
        Solution evened = m_state.accounts->evened(best);
        m_state.offer(evened);
        best = std::move(evened);
    }
    best.bound = std::max(m_state.bound, m_state.byArea);
    best.work = m_state.work;
    return std::move(best);
}

} // namespace stavewright::cutting
