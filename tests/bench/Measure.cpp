#include "Measure.h"

#include <algorithm>
#include <chrono>

#include "Baselines.h"
#include "PeakMemory.h"
#include "SolutionChecker.h"
#include "core/cutting/LeastLumber.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::bench {

namespace {

double feet(const testing::Count& count) {
    return static_cast<double>(count.touchedBoardFeetMillionths) / 1e6;
}

/// Plan and bound as they were known at one moment.
bool isNear(const Solution& solution) {
    return solution.bound && static_cast<double>(solution.value - *solution.bound) <=
                                 nearGap * static_cast<double>(solution.value);
}

void check(const Problem& problem, const Solution& solution, const std::string& who, Row& row) {
    row.audited = true;
    for (const std::string& fault : testing::checkSolution(problem, solution)) {
        row.faults.push_back(who + ": " + fault);
    }
}

} // namespace

int unplacedIn(const Solution& solution) {
    int sum = 0;
    for (const int count : solution.unplaced) {
        sum += count;
    }
    return sum;
}

Measured measureSolve(const Problem& problem, const BenchOptions& options, double seconds,
                      int seed) {
    Measured measured;
    Row& row = measured.row;
    row.boards = static_cast<int>(problem.boards.size());
    row.seed = seed;
    restartPeakMemory();
    const auto start = std::chrono::steady_clock::now();
    const auto spent = [&] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    };
    measured.solution = solve(problem,
                              {.seed = static_cast<std::uint64_t>(seed),
                               .seconds = seconds,
                               .work = 0,
                               .threads = options.threads},
                              {}, [&](const Solution& better) {
                                  if (!row.firstPlan) {
                                      row.firstPlan = spent();
                                  }
                                  if (!row.toGoal && isNear(better)) {
                                      row.toGoal = spent();
                                  }
                              });
    row.total = spent();
    if (!row.toGoal && isNear(measured.solution)) {
        row.toGoal = row.total;
    }
    row.peakMegabytes = peakMegabytes();
    check(problem, measured.solution, "engine", row);
    const testing::Count count = testing::countSolution(problem, measured.solution);
    row.value = static_cast<double>(measured.solution.value) / 10'000;
    if (const auto bound = measured.solution.bound) {
        row.bound = static_cast<double>(*bound) / 10'000;
        row.gap = (row.value - *row.bound) / row.value;
    }
    row.touchedBoardFeet = feet(count);
    measured.panels = panelFigures(problem, measured.solution);
    if (measured.panels.panels > 0) {
        const double panels = measured.panels.panels;
        row.stavesPerPanel = measured.panels.staves / panels;
        row.boardsPerPanel = measured.panels.boards / panels;
    }
    row.demanded = count.demanded;
    row.placed = count.demanded - unplacedIn(measured.solution);
    return measured;
}

void addBoardFeetGap(const Problem& problem, const BenchOptions& options, double seconds,
                     Measured& measured) {
    Row& row = measured.row;
    if (unplacedIn(measured.solution) > 0 || !row.touchedBoardFeet) {
        return; // the bound is of plans that place everything
    }
    const auto least = leastBoardFeet(problem,
                                      {.seed = static_cast<std::uint64_t>(row.seed),
                                       .seconds = seconds,
                                       .work = 0,
                                       .threads = options.threads},
                                      {});
    if (!least) {
        return;
    }
    const double bound = static_cast<double>(*least) / 1e6;
    if (bound > *row.touchedBoardFeet) {
        row.faults.push_back("engine: the board feet proved to be least are more than the plan's");
    }
    row.gapBoardFeet = 1 - bound / *row.touchedBoardFeet;
}

void addBaselines(const Problem& problem, Measured& measured) {
    Row& row = measured.row;
    const auto add = [&](const Solution& solution, const std::string& who,
                         std::optional<double>& lumber, std::optional<double>& saving) {
        check(problem, solution, who, row);
        lumber = feet(testing::countSolution(problem, solution));
        if (unplacedIn(solution) == 0 && unplacedIn(measured.solution) == 0 && *lumber > 0) {
            saving = 1 - *row.touchedBoardFeet / *lumber;
        }
    };
    add(plainGreedy(problem), "greedy", row.greedy, row.saving);
    add(carefulMaker(problem), "careful", row.careful, row.savingCareful);
}

} // namespace stavewright::cutting::bench
