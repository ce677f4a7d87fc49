#include "core/planning/PlanRun.h"

#include <algorithm>
#include <utility>

#include "core/cutting/LeastLumber.h"
#include "core/planning/Assembly.h"
#include "core/planning/Figures.h"
#include "core/planning/Kept.h"
#include "core/planning/NearestMiss.h"
#include "core/planning/ThicknessSteps.h"

namespace stavewright::planning {

namespace {

/// Enough for the engine's first complete solution and no more.
constexpr std::int64_t firstSolutionOnly = 1;
/// A bound that leaves more open, in percent of itself, says nothing that a maker could use.
constexpr std::int64_t mostWorthTelling = 125;

std::vector<PartId> unplacedParts(const Statement& statement, const cutting::Solution& solution) {
    std::vector<PartId> parts;
    for (std::size_t k = 0; k < solution.unplaced.size(); ++k) {
        const PartId part = statement.specs[k].part;
        if (solution.unplaced[k] > 0 && (parts.empty() || parts.back() != part)) {
            parts.push_back(part); // specs of one part stand together
        }
    }
    return parts;
}

} // namespace

PlanRun::PlanRun(const Document& document, std::vector<BlankSpec> specs, const PlanOptions& options,
                 const Progress& progress, const OnBetterPlan& better)
    : m_document(document)
    , m_specs(std::move(specs))
    , m_options(options)
    , m_progress(progress)
    , m_better(better)
    , m_kept(keptOf(document, m_specs))
    , m_keptParts(partsOf(m_kept))
    , m_keptThicknesses(thicknessesOf(document, m_kept))
    , m_start(std::chrono::steady_clock::now()) {}

PlanOutcome PlanRun::run() {
    const Thicknesses thicknesses = mayBeThinner() ? thicknessesNeeded() : Thicknesses{};
    if (!m_best.statement || !isOver()) {
        (void)solve(thicknesses, remaining());
    }
    proveLumber();
    explainUnplaced(m_document, *m_best.statement, m_best.plan, explainLimits());
    m_best.plan.origin.work = m_work;
    m_outcome.plan = std::move(m_best.plan);
    m_outcome.seconds = secondsSpent();
    m_outcome.stoppedEarly = m_progress.stopRequested();
    return std::move(m_outcome);
}

bool PlanRun::mayBeThinner() const {
    std::vector<PartId> parts;
    for (const BlankSpec& spec : m_specs) {
        if (parts.empty() || parts.back() != spec.part) {
            parts.push_back(spec.part); // specs of one part stand together
        }
    }
    return !flexible(parts).empty();
}

Thicknesses PlanRun::thicknessesNeeded() {
    // A first plan at once. Only when it leaves out parts that may be thinner is anything else
    // tried than the wanted thicknesses.
    std::vector<PartId> missing = flexible(solve({}, {m_options.seconds, firstSolutionOnly}));
    if (!missing.empty() && !isOver()) {
        const Budget quarter{remaining().seconds / 4,
                             std::max<std::int64_t>(1, remaining().work / 4)};
        missing = flexible(solve({}, quarter));
        if (!missing.empty() && !isOver()) {
            return thinner(missing);
        }
    }
    return {};
}

double PlanRun::secondsSpent() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - m_start).count();
}

PlanRun::Budget PlanRun::remaining() const {
    Budget left;
    if (m_options.seconds > 0) {
        left.seconds = std::max(0.001, m_options.seconds - secondsSpent());
    }
    if (m_options.work > 0) {
        left.work = std::max<std::int64_t>(1, m_options.work - m_work);
    }
    return left;
}

bool PlanRun::isOver() const {
    return m_progress.stopRequested() ||
           (m_options.seconds > 0 && secondsSpent() >= m_options.seconds) ||
           (m_options.work > 0 && m_work >= m_options.work);
}

ExplainLimits PlanRun::explainLimits() const {
    // Where the maker limits the time, a little of it is added for the reasons; otherwise the
    // counted steps alone end the search for them, so that the same work gives the same words.
    constexpr double secondsForReasons = 0.5;
    ExplainLimits limits;
    limits.stop = m_progress.stop;
    limits.seconds = m_options.seconds > 0 ? secondsForReasons : 0;
    return limits;
}

void PlanRun::proveLumber() {
    std::optional<Proof>& proof = m_best.plan.origin.proof;
    if (!proof || m_progress.stopRequested()) {
        return;
    }
    // Where the maker limits the time, a little of it is added: the plan itself has had all of it.
    constexpr int partsAdded = 4;
    const cutting::Options options{m_options.seed, m_options.seconds / partsAdded,
                                   m_options.work > 0 ? m_options.work / partsAdded + 1 : 0,
                                   m_options.threads};
    if (m_progress.report) {
        m_progress.report({"Proving the least lumber",
                           static_cast<std::int64_t>(m_best.plan.totals.placed),
                           static_cast<std::int64_t>(m_best.plan.totals.demanded), secondsSpent()});
    }
    Progress quiet;
    quiet.stop = m_progress.stop;
    const auto least = cutting::leastBoardFeet(m_best.statement->problem, options, quiet);
    if (least && BoardFeet::millionths(*least) <= m_best.plan.totals.lumberUsed) {
        proof->leastLumber = BoardFeet::millionths(*least);
    }
}

std::vector<PartId> PlanRun::solve(const Thicknesses& tried, const Budget& budget) {
    Thicknesses thicknesses = m_keptThicknesses;
    thicknesses.insert(tried.begin(), tried.end());
    const auto stated = std::make_shared<const Statement>(
        state(m_document, m_specs, thicknesses, m_kept, {m_options.weights, m_options.keptOff}));
    const Statement& statement = *stated;
    const cutting::Options options{m_options.seed, budget.seconds, budget.work, m_options.threads};
    cutting::Solution solution;
    if (statement.problem.boards.empty()) {
        // Nothing to cut from, nothing to search.
        for (const cutting::Kind& kind : statement.problem.kinds) {
            solution.unplaced.push_back(kind.demand);
        }
    } else {
        solution = cutting::solve(
            statement.problem, options, m_progress,
            [&](const cutting::Solution& improved) { offer(stated, improved, thicknesses); });
    }
    offer(stated, solution, thicknesses);
    m_work += solution.work;
    m_lastValue = solution.value;
    return unplacedParts(statement, solution);
}

void PlanRun::offer(const std::shared_ptr<const Statement>& statement,
                    const cutting::Solution& solution, const Thicknesses& thicknesses) {
    std::int64_t nextId = m_document.nextId;
    Plan plan = assemble(*statement, solution, nextId);
    for (const auto& [part, finished] : thicknesses) {
        plan.thicknesses.push_back({part, finished});
    }
    for (Unplaced& unplaced : plan.unplaced) {
        unplaced.nearestMiss = "No place found yet.";
    }
    markOffcuts(m_document, plan, nextId);
    const Result<PlanTotals> totals = totalsOf(m_document, plan);
    assert(totals.ok()); // the plan was made from this document
    plan.totals = totals.value();
    plan.origin = {Origin::Source::Solver, m_options.seed, m_work + solution.work, {}, {}};
    if (solution.bound && plan.unplaced.empty() && isWeighedAsPriced() &&
        m_options.keptOff.empty() &&
        solution.value - solution.groupsApart <= *solution.bound / 100 * mostWorthTelling) {
        plan.origin.proof = Proof{Money::tenThousandths(solution.value - solution.groupsApart),
                                  Money::tenThousandths(*solution.bound)};
    }
    if (!isBetter(plan, solution.value)) {
        if (plan.origin.proof && m_best.statement == statement && m_best.value == solution.value) {
            m_best.plan.origin.proof = plan.origin.proof; // it came after the plan itself
        }
        return;
    }
    if (!m_best.statement) {
        m_outcome.secondsToFirst = secondsSpent();
    }
    m_best = {std::move(plan), solution.value, statement};
    if (m_better) {
        m_better(m_best.plan);
    }
}

bool PlanRun::isBetter(const Plan& plan, cutting::Cost value) const {
    if (!m_best.statement) {
        return true;
    }
    const std::size_t missing = plan.unplaced.size();
    const std::size_t missingBefore = m_best.plan.unplaced.size();
    if (missing != missingBefore) {
        return missing < missingBefore;
    }
    if (missing > 0) {
        // The engine's value knows how much of a panel is missing, the totals do not.
        return value < m_best.value;
    }
    const Money counted = countedFor(m_document, plan);
    const Money countedBefore = countedFor(m_document, m_best.plan);
    const bool isLess = isWeighedAsPriced() ? counted < countedBefore : value < m_best.value;
    const bool isSame = counted == countedBefore && value == m_best.value;
    return isLess || (isSame && setUpsOf(plan).total() < setUpsOf(m_best.plan).total());
}

bool PlanRun::isWeighedAsPriced() const { return m_options.weights == Weights{}; }

std::vector<PartId> PlanRun::flexible(const std::vector<PartId>& parts) const {
    std::vector<PartId> result;
    for (const PartId id : parts) {
        if (!m_keptParts.contains(id) &&
            !thinnerSteps(m_document, *findPart(m_document, id)).empty()) {
            result.push_back(id);
        }
    }
    return result;
}

Thicknesses PlanRun::thinner(const std::vector<PartId>& parts) {
    std::map<PartId, std::vector<Length>> steps;
    std::size_t most = 0;
    for (const PartId id : parts) {
        steps[id] = thinnerSteps(m_document, *findPart(m_document, id));
        most = std::max(most, steps[id].size());
    }
    Thicknesses best;
    std::size_t fewestMissing = m_specs.size() + 1;
    cutting::Cost leastValue = 0;
    for (std::size_t step = 0; step < most && !isOver(); ++step) {
        Thicknesses now;
        for (const auto& [id, thinnerOnes] : steps) {
            now[id] = thinnerOnes[std::min(step, thinnerOnes.size() - 1)];
        }
        const std::size_t missing =
            flexible(solve(now, {remaining().seconds, firstSolutionOnly})).size();
        // Where none suffices, the one that leaves the least of a panel's width open.
        if (missing < fewestMissing || (missing == fewestMissing && m_lastValue < leastValue)) {
            fewestMissing = missing;
            leastValue = m_lastValue;
            best = now;
        }
        if (missing == 0) {
            break;
        }
    }
    return best;
}

} // namespace stavewright::planning
