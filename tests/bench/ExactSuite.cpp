// Tiny jobs against the least cost there is, found by a mixed-integer model and by complete tables.

#include <chrono>

#include "Measure.h"
#include "RowPrinter.h"
#include "SolutionChecker.h"
#include "Suites.h"
#include "exact/CoreCount.h"
#include "exact/PlanModel.h"
#include "exact/PlanTable.h"
#include "exact/TinyJobs.h"

namespace stavewright::cutting::bench {

namespace {

/// What shows that the optimum itself is right: both ways agree, its plan passes the checker and
/// costs as much when the engine's own count looks at it.
void proveOptimum(const exact::TinyJob& job, const exact::ExactPlan& plan, Cost second, Row& row) {
    for (const std::string& fault : testing::checkSolution(job.problem, plan.solution)) {
        row.faults.push_back("model: " + fault);
    }
    const Cost unplaced = exact::sharesOf(job.problem, plan.solution).unplaced;
    if (unplaced != plan.unplaced) {
        row.faults.push_back("model: its plan's boards, cuts and fills differ by " +
                             std::to_string(unplaced - plan.unplaced) +
                             " from the engine's count of them");
    }
    if (second != plan.solution.value) {
        row.faults.push_back("model: finds " + std::to_string(plan.solution.value) +
                             ", the tables find " + std::to_string(second));
    }
}

/// In what the plans that are not the best are worse.
class Misses {
  public:
    void add(const exact::Shares& engine, const exact::Shares& best) {
        ++m_count;
        note(m_unplaced, engine.unplaced - best.unplaced);
        note(m_boards, engine.boards - best.boards);
        note(m_fills, engine.fills - best.fills);
        note(m_cuts, engine.cuts - best.cuts);
        m_cutsAlone += engine.unplaced == best.unplaced && engine.boards == best.boards &&
                               engine.fills == best.fills
                           ? 1
                           : 0;
    }
    [[nodiscard]] std::string text() const {
        const auto told = [](const char* name, const Part& part) {
            return std::string(name) + " in " + std::to_string(part.count) + " (" +
                   std::to_string(part.sum / 10'000) + ")";
        };
        return "of the " + std::to_string(m_count) + " others, dearer by (sum of all misses) " +
               told("what is left out", m_unplaced) + ", " + told("boards", m_boards) + ", " +
               told("fills", m_fills) + ", " + told("cuts", m_cuts) + "; by cuts alone " +
               std::to_string(m_cutsAlone);
    }

  private:
    struct Part {
        int count = 0;
        Cost sum = 0;
    };
    static void note(Part& part, Cost more) {
        part.count += more > 0 ? 1 : 0;
        part.sum += more;
    }

    int m_count = 0;
    int m_cutsAlone = 0;
    Part m_unplaced, m_boards, m_fills, m_cuts;
};

std::string describe(const exact::TinyJob& job, std::uint64_t seed) {
    int blanks = 0;
    bool panel = false;
    for (const Kind& kind : job.problem.kinds) {
        panel = panel || kind.isPool;
        blanks += kind.isPool ? 0 : kind.demand;
    }
    return std::to_string(seed) + (job.metric ? " mm, " : " inch, ") + std::to_string(blanks) +
           (panel ? " and panel" : " blanks");
}

} // namespace

bool runExact(const BenchOptions& options) {
    using Clock = std::chrono::steady_clock;
    RowPrinter printer(options.json, {column::instance(22), column::boards(), column::value(2),
                                      column::published(2, "optimum"), column::reached("equal"),
                                      column::share("over", &Row::gap), column::placed(),
                                      column::audit(), column::number("bound", &Row::bound, 2),
                                      column::number("engine s", &Row::total, 2)});
    Misses misses;
    int equal = 0;
    int cases = 0;
    double engineSum = 0;
    double optimumSum = 0;
    double modelSeconds = 0;
    double largest = 0;
    for (int s = 0; s < options.seedsOr(200); ++s) {
        const auto seed = static_cast<std::uint64_t>(options.seedBase + s);
        const exact::TinyJob job = exact::tinyJob(seed);
        Measured measured =
            measureSolve(job.problem, options, options.secondsOr(1), static_cast<int>(seed));
        Row& row = measured.row;
        row.suite = "exact";
        row.family = "tiny";
        row.instance = describe(job, seed);
        const auto start = Clock::now();
        const auto grid = exact::GridJob::on(job.problem, job.unit);
        const auto plan = grid ? exact::bestByModel(*grid) : std::nullopt;
        modelSeconds += std::chrono::duration<double>(Clock::now() - start).count();
        if (!plan) {
            row.faults.push_back(grid ? "model: Cbc gave up" : "model: the job is off its grid");
            printer.print(row);
            continue;
        }
        proveOptimum(job, *plan, exact::bestByTables(*grid), row);
        const Cost value = measured.solution.value;
        const Cost optimum = plan->solution.value;
        if (value != optimum) {
            misses.add(exact::sharesOf(job.problem, measured.solution),
                       exact::sharesOf(job.problem, plan->solution));
        }
        if (value < optimum) {
            row.faults.push_back("the engine's plan costs less than the optimum");
        }
        row.published = static_cast<double>(optimum) / 10'000;
        row.reached = value == optimum;
        if (value > 0) {
            row.gap = static_cast<double>(value - optimum) / static_cast<double>(value);
            largest = std::max(largest, *row.gap);
        }
        ++cases;
        equal += value == optimum ? 1 : 0;
        engineSum += row.value;
        optimumSum += *row.published;
        printer.print(row);
    }
    printer.note(std::to_string(equal) + " of " + std::to_string(cases) +
                 " equal the optimum; sum of values " + std::to_string(engineSum) + ", of optima " +
                 std::to_string(optimumSum) + " (" + asPercent(engineSum / optimumSum - 1) +
                 " over), largest excess " + asPercent(largest) + "; models took " +
                 std::to_string(modelSeconds) + " s");
    if (equal < cases) {
        printer.note(misses.text());
    }
    printer.finish();
    return printer.isSound();
}

} // namespace stavewright::cutting::bench
