#include "core/cutting/StockMix.h"

#include <algorithm>
#include <cmath>

#include <coin/ClpSimplex.hpp>

#include "core/cutting/MixUnits.h"

namespace stavewright::cutting {

// Rows: kinds (at least what is wanted), classes (at most the boards there are).

StockMix::StockMix(const std::vector<Cost>& penalties, const std::vector<int>& open,
                   const std::vector<int>& boards)
    : m_kinds(open.size())
    , m_classes(boards.size())
    , m_model(std::make_unique<ClpSimplex>()) {
    m_model->setLogLevel(0);
    m_model->resize(static_cast<int>(m_kinds + m_classes), 0);
    for (std::size_t k = 0; k < m_kinds; ++k) {
        m_model->setRowBounds(static_cast<int>(k), open[k], COIN_DBL_MAX);
    }
    for (std::size_t c = 0; c < m_classes; ++c) {
        m_model->setRowBounds(static_cast<int>(m_kinds + c), -COIN_DBL_MAX, boards[c]);
    }
    for (std::size_t k = 0; k < m_kinds; ++k) {
        const int row = static_cast<int>(k);
        const double one = 1;
        m_model->addColumn(1, &row, &one, 0, COIN_DBL_MAX,
                           static_cast<double>(penalties[k]) / unitOfMoney);
    }
}

StockMix::~StockMix() = default;

void StockMix::add(std::size_t id, const StockColumn& column) {
    m_ids.push_back(id);
    std::vector<int> rows;
    std::vector<double> elements;
    for (std::size_t k = 0; k < m_kinds; ++k) {
        if (column.yield[k] > 0) {
            rows.push_back(static_cast<int>(k));
            elements.push_back(column.yield[k]);
        }
    }
    rows.push_back(static_cast<int>(m_kinds + column.boards));
    elements.push_back(1);
    m_model->addColumn(static_cast<int>(rows.size()), rows.data(), elements.data(), 0, COIN_DBL_MAX,
                       static_cast<double>(column.cost) / unitOfMoney);
}

bool StockMix::solve() {
    m_model->primal(1);
    return m_model->status() == 0;
}

double StockMix::value() const { return m_model->objectiveValue() * unitOfMoney; }

std::vector<Cost> StockMix::prices() const {
    const double* dual = m_model->dualRowSolution();
    std::vector<Cost> prices;
    for (std::size_t k = 0; k < m_kinds; ++k) {
        prices.push_back(std::max<Cost>(0, static_cast<Cost>(std::floor(dual[k] * unitOfMoney))));
    }
    return prices;
}

std::vector<double> StockMix::boardWorths() const {
    const double* dual = m_model->dualRowSolution();
    std::vector<double> worths;
    for (std::size_t c = 0; c < m_classes; ++c) {
        worths.push_back(std::max(0.0, -dual[m_kinds + c] * unitOfMoney));
    }
    return worths;
}

std::vector<std::pair<double, std::size_t>> StockMix::shares() const {
    const double* primal = m_model->primalColumnSolution() + m_kinds;
    std::vector<std::pair<double, std::size_t>> shares;
    for (std::size_t i = 0; i < m_ids.size(); ++i) {
        if (primal[i] > 1e-6) {
            shares.emplace_back(primal[i], m_ids[i]);
        }
    }
    std::stable_sort(shares.begin(), shares.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    return shares;
}

} // namespace stavewright::cutting
