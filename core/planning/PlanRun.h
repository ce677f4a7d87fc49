#pragma once
// One planning of a job: solves at the wanted thicknesses, thinner where the job allows and needs
// it, and hands out each better plan complete with offcuts and totals.

#include <chrono>
#include <memory>

#include "core/cutting/Solve.h"
#include "core/planning/NearestMiss.h"
#include "core/planning/Planner.h"
#include "core/planning/Statement.h"

namespace stavewright::planning {

class PlanRun {
  public:
    PlanRun(const Document& document, std::vector<BlankSpec> specs, const PlanOptions& options,
            const Progress& progress, const OnBetterPlan& better);

    PlanOutcome run();

  private:
    /// What remains of the limits given; 0 where there is no limit.
    struct Budget {
        double seconds = 0;
        std::int64_t work = 0;
    };
    struct Candidate {
        Plan plan;
        cutting::Cost value = 0;
        std::shared_ptr<const Statement> statement; ///< null: there is no plan yet
    };

    [[nodiscard]] double secondsSpent() const;
    [[nodiscard]] Budget remaining() const;
    [[nodiscard]] bool isOver() const;
    [[nodiscard]] ExplainLimits explainLimits() const;

    /// Solves at these thicknesses (and those of kept parts) and keeps what is better than the best
    /// so far. The unplaced parts that the solution leaves are returned.
    /// Adds to what is proved of the best plan how little lumber any plan takes.
    void proveLumber();
    std::vector<PartId> solve(const Thicknesses& thicknesses, const Budget& budget);
    void offer(const std::shared_ptr<const Statement>& statement, const cutting::Solution& solution,
               const Thicknesses& thicknesses);
    [[nodiscard]] bool isBetter(const Plan& plan, cutting::Cost value) const;
    /// The engine weighs what the shop's prices say.
    [[nodiscard]] bool isWeighedAsPriced() const;
    /// Some part may be: only then does it pay to look at a first plan before the search.
    [[nodiscard]] bool mayBeThinner() const;
    /// What the parts that find no place at their wanted thickness need; nothing while all do.
    [[nodiscard]] Thicknesses thicknessesNeeded();
    /// Those of the parts that may be thinner than wanted; what has a blank that is kept may not.
    [[nodiscard]] std::vector<PartId> flexible(const std::vector<PartId>& parts) const;
    /// The thickest steps at which the parts find a place at the first try, or the best there are.
    [[nodiscard]] Thicknesses thinner(const std::vector<PartId>& parts);

    const Document& m_document;
    std::vector<BlankSpec> m_specs;
    PlanOptions m_options;
    const Progress& m_progress;
    const OnBetterPlan& m_better;
    Kept m_kept;
    std::set<PartId> m_keptParts;
    Thicknesses m_keptThicknesses;
    std::chrono::steady_clock::time_point m_start;
    std::int64_t m_work = 0;
    cutting::Cost m_lastValue = 0; ///< of the solution that solve() found last
    Candidate m_best;
    PlanOutcome m_outcome;
};

} // namespace stavewright::planning
