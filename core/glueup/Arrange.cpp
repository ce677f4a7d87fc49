#include "core/glueup/Arrange.h"

#include <algorithm>
#include <bit>

#include "core/base/Deadline.h"
#include "core/glueup/ExactOrder.h"
#include "core/glueup/OrderSearch.h"

namespace stavewright::glueup {

bool isAllowed(const Scoring& scoring, const Order& order) {
    if (static_cast<int>(order.size()) != scoring.staves()) {
        return false;
    }
    std::vector<bool> seen(order.size());
    for (int place = 0; place < scoring.staves(); ++place) {
        const Placed placed = order[static_cast<std::size_t>(place)];
        if (placed.stave < 0 || placed.stave >= scoring.staves() ||
            seen[static_cast<std::size_t>(placed.stave)] || !scoring.mayStand(placed, place)) {
            return false;
        }
        seen[static_cast<std::size_t>(placed.stave)] = true;
    }
    return scoring.areWideEnough(order);
}

namespace {

constexpr std::int64_t mostExchangeMoves = 600'000;
/// Ten staves in two panels can be divided in 252 ways at most.
constexpr int mostDividedStaves = 10;

/// The same panels with the staves divided as `order` has them: its staves become 0, 1, 2 ... in
/// the order in which they stand, so that each panel's are its own again.
ArrangeProblem divided(const ArrangeProblem& problem, const Order& order) {
    ArrangeProblem fixed = problem;
    fixed.exchange = false;
    std::vector<int> numbers(order.size());
    for (std::size_t place = 0; place < order.size(); ++place) {
        fixed.staves[place] = problem.staves[static_cast<std::size_t>(order[place].stave)];
        numbers[static_cast<std::size_t>(order[place].stave)] = static_cast<int>(place);
    }
    for (PanelWish& panel : fixed.panels) {
        for (std::optional<Placed>& locked : panel.locked) {
            if (locked) {
                locked->stave = numbers[static_cast<std::size_t>(locked->stave)];
            }
        }
    }
    return fixed;
}

/// `order` of staves as divided() numbered them, in the numbers of the undivided problem.
Order undivided(Order order, const Order& by) {
    for (Placed& placed : order) {
        placed.stave = by[static_cast<std::size_t>(placed.stave)].stave;
    }
    return order;
}

/// Improves `order` without exchanging anything; true when nothing better exists.
bool arrangeWithin(const ArrangeProblem& problem, Order& order, const ArrangeLimits& limits,
                   const std::stop_token& stop) {
    const Scoring scoring(problem);
    int most = 0;
    for (const PanelWish& panel : problem.panels) {
        most = std::max(most, panel.staves);
    }
    const bool canBeExact = most <= mostExactStaves;
    // With more moves it begins more often, rather than cool more slowly: what fewer moves would
    // have found is among it, and a deadline leaves that.
    constexpr std::int64_t movesOfABeginning = 115'000;
    SearchLimits search{
        limits.seed, limits.moves,
        static_cast<int>(std::clamp<std::int64_t>(limits.moves / movesOfABeginning, 12, 1000))};
    if (canBeExact) { // a good beginning makes the proof short
        search.moves = std::min<std::int64_t>(limits.moves, 10'000 * scoring.staves());
        search.beginnings = 2;
    }
    order = searchOrder(scoring, order, search, stop);
    if (!canBeExact) {
        return false;
    }
    const ExactResult exact = exactOrder(scoring, order, limits.work, stop);
    order = exact.order;
    return exact.isProved;
}

/// Every way to divide the staves between the two panels, each arranged exactly; true when nothing
/// better exists. Where there are too many of them nothing is tried.
bool arrangeEveryDivision(const ArrangeProblem& problem, Order& best, const ArrangeLimits& limits,
                          const std::stop_token& stop) {
    const Scoring whole(problem);
    const int staves = whole.staves();
    const int first = whole.endOf(0);
    if (staves > mostDividedStaves) {
        return false;
    }
    Cost bestCost = whole.total(best);
    bool proved = true;
    for (std::uint32_t in = 0; in < std::uint32_t{1} << staves; ++in) {
        if (std::popcount(in) != first) {
            continue;
        }
        if (stop.stop_requested()) {
            return false;
        }
        const auto isIn = [&](int stave, int panel) {
            return ((in >> stave & 1) != 0) == (panel == 0);
        };
        Order numbers;
        bool keepsLocks = true;
        for (int panel = 0; panel < 2; ++panel) {
            for (int stave = 0; stave < staves; ++stave) {
                if (isIn(stave, panel)) {
                    numbers.push_back({stave, 0});
                }
            }
            for (const auto& locked : problem.panels[static_cast<std::size_t>(panel)].locked) {
                keepsLocks = keepsLocks && (!locked || isIn(locked->stave, panel));
            }
        }
        if (!keepsLocks || !whole.areWideEnough(numbers)) {
            continue;
        }
        const ArrangeProblem fixed = divided(problem, numbers);
        const Scoring scoring(fixed);
        const ExactResult exact =
            exactOrder(scoring, firstOrder(scoring), limits.work, stop, bestCost);
        proved = proved && exact.isProved;
        if (exact.total < bestCost) {
            bestCost = exact.total;
            best = undivided(exact.order, numbers);
        }
    }
    return proved;
}

} // namespace

Arrangement arrange(const ArrangeProblem& problem, const Order& given, const ArrangeLimits& limits,
                    const std::stop_token& stop) {
    const Deadline deadline(limits.seconds, stop);
    const Scoring scoring(problem);
    Arrangement result;
    result.order = isAllowed(scoring, given) ? given : firstOrder(scoring);
    const auto improve = [&] {
        Order numbers;
        for (int stave = 0; stave < scoring.staves(); ++stave) {
            numbers.push_back({stave, 0});
        }
        Order order = result.order;
        if (problem.exchange) {
            numbers = result.order;
            for (std::size_t place = 0; place < order.size(); ++place) {
                order[place].stave = static_cast<int>(place);
            }
        }
        const ArrangeProblem fixed = problem.exchange ? divided(problem, numbers) : problem;
        const bool proved = arrangeWithin(fixed, order, limits, deadline.stop());
        result.order = undivided(std::move(order), numbers);
        return proved;
    };
    const bool proved = improve();
    if (problem.exchange) { // from the best without an exchange on, and once more within
        const Order within = result.order;
        result.order = searchOrder(scoring, within,
                                   {limits.seed, std::min(limits.moves, mostExchangeMoves), 6},
                                   deadline.stop());
        if (result.order != within) {
            improve();
        }
        if (arrangeEveryDivision(problem, result.order, limits, deadline.stop())) {
            result.proved = Proved::Best;
        }
    } else {
        result.proved = proved ? Proved::Best : Proved::BestFound;
    }
    result.score = scoring.score(result.order);
    result.stoppedEarly = stop.stop_requested();
    return result;
}

} // namespace stavewright::glueup
