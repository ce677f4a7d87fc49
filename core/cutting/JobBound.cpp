#include "core/cutting/JobBound.h"

#include <algorithm>
#include <cmath>

#include <coin/CglGomory.hpp>
#include <coin/CglKnapsackCover.hpp>
#include <coin/CglMixedIntegerRounding2.hpp>

#include "core/cutting/MixUnits.h"
#include "core/cutting/QuietCbc.h"

namespace stavewright::cutting {

namespace {

__extension__ typedef __int128 Wide;

/// The cuts that are kept: the newest, the prices of which are nearest to the best.
constexpr std::size_t cutsKept = 60;
/// Cbc's answer is in doubles: so much of it (in parts) is given away.
constexpr double givenAway = 1e-5;

Cost floorDiv(Wide a, Wide b) { return static_cast<Cost>(a >= 0 ? a / b : -((-a + b - 1) / b)); }

} // namespace

JobBound::JobBound(const Context& context, const Accounts& accounts,
                   const std::vector<const BoardModel*>& models)
    : m_context(&context)
    , m_accounts(&accounts) {
    for (const BoardModel* model : models) {
        m_boardCost.push_back(model->board().cost);
        m_price.push_back(model->price());
        m_paid += model->board().cost - model->price();
    }
}

Values JobBound::allowed(Values values) const {
    const std::vector<Kind>& kinds = m_context->problem->kinds;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        const Kind& kind = kinds[k];
        if (!kind.isPool) {
            values.each[k] = std::clamp<Cost>(values.each[k], 0, kind.penaltyUnplaced);
            continue;
        }
        // A missing width costs its share of the penalty.
        const Cost leftOut = floorDiv(static_cast<Wide>(kind.penaltyUnplaced) * nanometresPerMetre,
                                      std::max<Nm>(1, kind.netWanted));
        Cost& width = values.perMetre[k];
        Cost& each = values.each[k];
        width = std::clamp<Cost>(width, 0, leftOut);
        // A panel that misses only a step of its width may miss all its staves in number.
        const auto spare = [&] {
            return floorDiv(static_cast<Wide>(leftOut - width) * std::max<Nm>(1, kind.step),
                            nanometresPerMetre) /
                   std::max<std::int64_t>(1, fewestStaves(kind));
        };
        if (each > spare()) {
            // Where a mix leaves out staves, their number is as dear to it as their width, and it
            // may as well have put all of the price there.
            const double moved =
                static_cast<double>(width) + static_cast<double>(each) * stavesLeftOut(kind);
            width = static_cast<Cost>(std::min(static_cast<double>(leftOut), moved));
            each = std::min(each, spare());
        }
    }
    return values;
}

Cost JobBound::worthOfDemand(const Values& values) const {
    const std::vector<Kind>& kinds = m_context->problem->kinds;
    const Demand& demand = m_accounts->demand();
    Cost worth = 0;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        const std::int64_t open = std::max<std::int64_t>(0, demand.open[k]);
        if (!kinds[k].isPool) {
            worth += values.each[k] * open;
            continue;
        }
        worth += floorDiv(static_cast<Wide>(values.perMetre[k]) * open, nanometresPerMetre);
        worth +=
            values.each[k] * (values.each[k] < 0 ? std::max<std::int64_t>(0, demand.staves[k])
                                                 : std::max<std::int64_t>(0, demand.fewest[k]));
    }
    return worth;
}

Cost JobBound::ofChoice(const Values& values, const std::vector<Cost>& most,
                        const std::vector<std::size_t>& boards) const {
    Cost least = worthOfDemand(values) + m_paid;
    for (const std::size_t b : boards) {
        least += m_price[b] - most[b];
    }
    return least;
}

double JobBound::shareOfOffcuts() const {
    const Limits& limits = m_context->problem->limits;
    return limits.offcutLength > 0 ? limits.offcutWorthPercent / 100.0 : 0;
}

double JobBound::atShare(const Cut& cut, double share) const {
    double bound = share * static_cast<double>(cut.demand) + static_cast<double>(m_paid);
    for (std::size_t b = 0; b < cut.most.size(); ++b) {
        const double offcuts = shareOfOffcuts() * static_cast<double>(m_boardCost[b]);
        bound +=
            std::min(0.0, static_cast<double>(m_price[b]) -
                              share * static_cast<double>(cut.most[b]) - (1 - share) * offcuts);
    }
    return bound;
}

void JobBound::add(const Values& values, std::vector<Cost> most) {
    const Cut cut{worthOfDemand(values), std::move(most)};
    Cost bound = cut.demand + m_paid;
    for (std::size_t b = 0; b < cut.most.size(); ++b) {
        bound += std::min<Cost>(0, m_price[b] - cut.most[b]);
    }
    m_newest = bound;
    double best = 1;
    // By the share it is concave and straight between those at which one board more just pays.
    for (std::size_t b = 0; b < cut.most.size(); ++b) {
        const double offcuts = shareOfOffcuts() * static_cast<double>(m_boardCost[b]);
        const double share = (static_cast<double>(m_price[b]) - offcuts) /
                             std::max(1.0, static_cast<double>(cut.most[b]) - offcuts);
        if (share <= 0 || share >= 1) {
            continue;
        }
        const double there = atShare(cut, share);
        const auto safe = static_cast<Cost>(std::floor(there - std::abs(there) * givenAway)) - 1;
        if (safe > m_newest) {
            m_newest = safe;
            best = share;
        }
    }
    m_newestPrices = values;
    for (std::vector<Cost>* prices : {&m_newestPrices.each, &m_newestPrices.perMetre}) {
        for (Cost& price : *prices) {
            price = static_cast<Cost>(best * static_cast<double>(price));
        }
    }
    m_linear = std::max(m_newest, m_linear.value_or(m_newest));
    const bool isKnown = std::any_of(m_cuts.begin(), m_cuts.end(), [&](const Cut& known) {
        return cut.demand == known.demand && cut.most == known.most;
    });
    if (isKnown) {
        return; // equal rows gain nothing, and the mixed-integer solver does not bear them well
    }
    m_cuts.push_back(cut);
    if (m_cuts.size() > cutsKept) {
        m_cuts.erase(m_cuts.begin());
    }
}

JobBound::Whole JobBound::whole(int nodes, const Interrupt& interrupt) const {
    Whole whole{m_linear.value_or(0), {}};
    if (m_cuts.empty()) {
        return whole;
    }
    // Columns: the boards, then what fills and cuts cost. That is less than nothing only by the
    // offcuts of the boards that are touched.
    const int boards = static_cast<int>(m_price.size());
    OsiClpSolverInterface solver;
    silence(solver);
    std::vector<int> columns;
    std::vector<double> offcuts;
    for (int b = 0; b < boards; ++b) {
        const auto at = static_cast<std::size_t>(b);
        solver.addCol(0, nullptr, nullptr, 0, 1, static_cast<double>(m_price[at]) / unitOfMoney);
        solver.setInteger(b);
        columns.push_back(b);
        offcuts.push_back(shareOfOffcuts() * static_cast<double>(m_boardCost[at]) / unitOfMoney);
    }
    solver.addCol(0, nullptr, nullptr, -COIN_DBL_MAX, COIN_DBL_MAX, 1);
    columns.push_back(boards);
    offcuts.push_back(1);
    solver.addRow(boards + 1, columns.data(), offcuts.data(), 0, COIN_DBL_MAX);
    for (const Cut& cut : m_cuts) {
        std::vector<double> elements;
        elements.reserve(columns.size());
        for (int b = 0; b < boards; ++b) {
            // A hair more than it is, so that no rounding makes the cut too tight.
            elements.push_back(static_cast<double>(cut.most[static_cast<std::size_t>(b)] + 1) /
                               unitOfMoney);
        }
        elements.push_back(1);
        solver.addRow(boards + 1, columns.data(), elements.data(),
                      static_cast<double>(cut.demand) / unitOfMoney, COIN_DBL_MAX);
    }
    solver.initialSolve();
    if (!solver.isProvenOptimal() || interrupt.isCalled()) {
        return whole;
    }
    CbcModel model(solver);
    CbcWatch watch(interrupt);
    limit(model, nodes, watch);
    CglKnapsackCover cover;
    CglGomory gomory;
    CglMixedIntegerRounding2 rounding;
    model.addCutGenerator(&cover, -1, "cover");
    model.addCutGenerator(&gomory, -1, "gomory");
    model.addCutGenerator(&rounding, -1, "rounding");
    model.setNumberBeforeTrust(0);
    model.setAllowableFractionGap(1e-4);
    model.branchAndBound();
    if (interrupt.isCalled()) {
        return whole;
    }
    const double best = model.getBestPossibleObjValue() * unitOfMoney;
    const double safe = best - std::abs(best) * givenAway - 1;
    if (!std::isfinite(safe)) {
        return whole;
    }
    whole.least = std::max(whole.least, m_paid + static_cast<Cost>(std::floor(safe)));
    if (const double* chosen = model.bestSolution()) {
        for (std::size_t b = 0; b < m_price.size(); ++b) {
            if (chosen[b] > 0.5) {
                whole.boards.push_back(b);
            }
        }
    }
    return whole;
}

} // namespace stavewright::cutting
