#include "core/cutting/Master.h"

#include <algorithm>
#include <cmath>

#include <coin/ClpSimplex.hpp>

#include "core/cutting/MixUnits.h"

namespace stavewright::cutting {

namespace {

// Rows: kinds (at least the demand), kinds again (at most the staves its panels may have), boards
// (at most once).
/// A blank that is hard to come by may be worth so many times what it seemed at first.
constexpr double timesEstimate = 4;

} // namespace

Master::Master(const Context& context, std::size_t boards, const Demand& demand,
               const Values* estimate)
    : m_context(&context)
    , m_kinds(demand.open.size())
    , m_model(std::make_unique<ClpSimplex>()) {
    m_model->setLogLevel(0);
    const int rows = static_cast<int>(2 * m_kinds + boards);
    m_model->resize(rows, 0);
    const std::vector<Kind>& kinds = context.problem->kinds;
    for (std::size_t k = 0; k < m_kinds; ++k) {
        m_unit.push_back(demandUnit(kinds[k]));
        const int row = static_cast<int>(k);
        m_model->setRowBounds(
            row, static_cast<double>(std::max<std::int64_t>(0, demand.open[k])) / m_unit[k],
            COIN_DBL_MAX);
        const StaveRow staves =
            kinds[k].isPool ? staveRow(demand, k) : StaveRow{-COIN_DBL_MAX, COIN_DBL_MAX};
        m_model->setRowBounds(static_cast<int>(m_kinds + k), staves.fewest, staves.most);
    }
    for (std::size_t b = 0; b < boards; ++b) {
        m_model->setRowBounds(static_cast<int>(2 * m_kinds + b), -COIN_DBL_MAX, 1);
    }
    for (std::size_t k = 0; k < m_kinds; ++k) {
        // What stays unplaced, at its penalty.
        double perUnit = costLeftOut(kinds[k]);
        if (estimate != nullptr) {
            const Cost worth = kinds[k].isPool ? estimate->perMetre[k] : estimate->each[k];
            perUnit = std::min(perUnit, timesEstimate * static_cast<double>(worth));
        }
        const int slackRows[] = {static_cast<int>(k), static_cast<int>(m_kinds + k)};
        const double elements[] = {1, kinds[k].isPool ? stavesLeftOut(kinds[k]) : 0};
        m_model->addColumn(kinds[k].isPool ? 2 : 1, slackRows, elements, 0, COIN_DBL_MAX,
                           std::max(1.0, perUnit / unitOfMoney));
        ++m_slacks;
    }
}

Master::~Master() = default;

void Master::add(std::size_t id, const Column& column) {
    m_ids.push_back(id);
    std::vector<int> rows;
    std::vector<double> elements;
    for (std::size_t k = 0; k < m_kinds; ++k) {
        if (column.yield.open[k] > 0) {
            rows.push_back(static_cast<int>(k));
            elements.push_back(static_cast<double>(column.yield.open[k]) / m_unit[k]);
            if (m_context->problem->kinds[k].isPool) {
                rows.push_back(static_cast<int>(m_kinds + k));
                elements.push_back(static_cast<double>(column.yield.staves[k]));
            }
        }
    }
    rows.push_back(static_cast<int>(2 * m_kinds + column.board));
    elements.push_back(1);
    m_model->addColumn(static_cast<int>(rows.size()), rows.data(), elements.data(), 0, COIN_DBL_MAX,
                       static_cast<double>(column.cost) / unitOfMoney);
}

bool Master::solve() {
    m_model->primal(1);
    return m_model->status() == 0;
}

double Master::value() const { return m_model->objectiveValue() * unitOfMoney; }

Values Master::values() const {
    Values values;
    const double* dual = m_model->dualRowSolution();
    for (std::size_t k = 0; k < m_kinds; ++k) {
        const auto worth = static_cast<Cost>(std::floor(dual[k] * unitOfMoney));
        if (m_context->problem->kinds[k].isPool) {
            values.perMetre.push_back(worth);
            values.each.push_back(static_cast<Cost>(std::floor(dual[m_kinds + k] * unitOfMoney)));
        } else {
            values.perMetre.push_back(0);
            values.each.push_back(worth);
        }
    }
    return values;
}

double Master::gainOf(const Column& column) const {
    const double* dual = m_model->dualRowSolution();
    double gain = dual[2 * m_kinds + column.board];
    for (std::size_t k = 0; k < m_kinds; ++k) {
        gain += dual[k] * static_cast<double>(column.yield.open[k]) / m_unit[k];
        if (m_context->problem->kinds[k].isPool) {
            gain += dual[m_kinds + k] * static_cast<double>(column.yield.staves[k]);
        }
    }
    return gain * unitOfMoney - static_cast<double>(column.cost);
}

std::vector<std::pair<double, std::size_t>> Master::shares() const {
    const double* primal = m_model->primalColumnSolution() + m_slacks;
    std::vector<std::pair<double, std::size_t>> shares;
    for (std::size_t i = 0; i < m_ids.size(); ++i) {
        shares.emplace_back(primal[i], m_ids[i]);
    }
    return shares;
}

} // namespace stavewright::cutting
