#include "core/cutting/StockWhole.h"

#include <algorithm>
#include <cmath>

#include <coin/CbcHeuristic.hpp>
#include <coin/CglMixedIntegerRounding2.hpp>

#include "core/cutting/MixUnits.h"
#include "core/cutting/QuietCbc.h"

namespace stavewright::cutting {

std::vector<int> wholeStock(const std::vector<Cost>& penalties, const std::vector<int>& open,
                            const std::vector<int>& boards,
                            const std::vector<const StockColumn*>& columns, const MixLimits& limits,
                            const Interrupt& interrupt) {
    if (columns.empty()) {
        return {};
    }
    // Rows: kinds (at least what is wanted), classes (at most the boards there are).
    const std::size_t kinds = penalties.size();
    CoinPackedMatrix matrix;
    matrix.setDimensions(static_cast<int>(kinds + boards.size()), 0);
    std::vector<double> cost, most;
    for (std::size_t k = 0; k < kinds; ++k) {
        CoinPackedVector column;
        column.insert(static_cast<int>(k), 1);
        matrix.appendCol(column);
        cost.push_back(static_cast<double>(penalties[k]) / unitOfMoney);
        most.push_back(open[k]);
    }
    for (const StockColumn* offered : columns) {
        CoinPackedVector column;
        for (std::size_t k = 0; k < kinds; ++k) {
            // More than is open gives nothing; saying so tightens the programme.
            const int yield = std::min(offered->yield[k], open[k]);
            if (yield > 0) {
                column.insert(static_cast<int>(k), yield);
            }
        }
        column.insert(static_cast<int>(kinds + offered->boards), 1);
        matrix.appendCol(column);
        cost.push_back(static_cast<double>(offered->cost) / unitOfMoney);
        most.push_back(boards[offered->boards]);
    }
    std::vector<double> rowLow(open.begin(), open.end());
    std::vector<double> rowHigh(kinds, COIN_DBL_MAX);
    rowLow.resize(kinds + boards.size(), -COIN_DBL_MAX);
    rowHigh.insert(rowHigh.end(), boards.begin(), boards.end());
    const std::vector<double> least(cost.size(), 0);
    OsiClpSolverInterface solver;
    silence(solver);
    solver.loadProblem(matrix, least.data(), most.data(), cost.data(), rowLow.data(),
                       rowHigh.data());
    for (std::size_t i = 0; i < cost.size(); ++i) {
        solver.setInteger(static_cast<int>(i));
    }
    CbcModel model(solver);
    CbcWatch watch(interrupt);
    limit(model, limits.nodes, watch);
    model.setCutoff(limits.below / unitOfMoney);
    model.setRandomSeed(1);
    CglMixedIntegerRounding2 rounding;
    model.addCutGenerator(&rounding, -1, "rounding");
    CbcRounding round(model);
    model.addHeuristic(&round);
    model.branchAndBound();
    const double* best = model.bestSolution();
    std::vector<int> times;
    for (std::size_t i = 0; best != nullptr && i < columns.size(); ++i) {
        times.push_back(static_cast<int>(std::lround(best[kinds + i])));
    }
    return times;
}

} // namespace stavewright::cutting
