#include "core/cutting/WholeMix.h"

#include <algorithm>
#include <cmath>

#include <coin/CbcHeuristic.hpp>
#include <coin/CglKnapsackCover.hpp>
#include <coin/CglMixedIntegerRounding2.hpp>

#include "core/cutting/MixUnits.h"
#include "core/cutting/PanelRows.h"
#include "core/cutting/QuietCbc.h"

namespace stavewright::cutting {

namespace {

/// The programme that both mixes share. Rows: demand of each kind, staves of each pool, each board.
struct Programme : MixRows {
    std::vector<std::size_t> boards; ///< ascending
    std::size_t kinds = 0;

    Programme(const Context& context, const Columns& columns, const std::vector<std::size_t>& ids,
              const Demand& open) {
        const std::vector<Kind>& wanted = context.problem->kinds;
        kinds = wanted.size();
        for (const std::size_t id : ids) {
            boards.push_back(columns.column(id).board);
        }
        std::sort(boards.begin(), boards.end());
        boards.erase(std::unique(boards.begin(), boards.end()), boards.end());
        const auto kindCount = static_cast<int>(kinds);
        matrix.setDimensions(2 * kindCount + static_cast<int>(boards.size()), 0);
        for (std::size_t k = 0; k < kinds; ++k) {
            CoinPackedVector column;
            column.insert(static_cast<int>(k), 1);
            if (wanted[k].isPool) {
                column.insert(kindCount + static_cast<int>(k), stavesLeftOut(wanted[k]));
            }
            addColumn(column, std::max(1.0, costLeftOut(wanted[k]) / unitOfMoney), COIN_DBL_MAX);
        }
        for (const std::size_t id : ids) {
            const Column& offered = columns.column(id);
            CoinPackedVector column;
            for (std::size_t k = 0; k < kinds; ++k) {
                // More than is open gives nothing; saying so tightens the programme.
                const std::int64_t yield =
                    std::min(offered.yield.open[k], std::max<std::int64_t>(0, open.open[k]));
                if (yield > 0) {
                    column.insert(static_cast<int>(k),
                                  static_cast<double>(yield) / demandUnit(wanted[k]));
                }
                if (offered.yield.staves[k] > 0) {
                    column.insert(kindCount + static_cast<int>(k),
                                  static_cast<double>(offered.yield.staves[k]));
                }
            }
            column.insert(rowOf(offered.board), 1);
            addColumn(column, static_cast<double>(offered.cost) / unitOfMoney, 1);
        }
        rowLow.assign(static_cast<std::size_t>(matrix.getNumRows()), -COIN_DBL_MAX);
        rowHigh.assign(rowLow.size(), COIN_DBL_MAX);
        for (std::size_t k = 0; k < kinds; ++k) {
            rowLow[k] = static_cast<double>(std::max<std::int64_t>(0, open.open[k])) /
                        demandUnit(wanted[k]);
            if (wanted[k].isPool) {
                const StaveRow staves = staveRow(open, k);
                rowLow[kinds + k] = staves.fewest;
                rowHigh[kinds + k] = staves.most;
            }
        }
        for (std::size_t b = 0; b < boards.size(); ++b) {
            rowHigh[2 * kinds + b] = 1;
        }
    }

    [[nodiscard]] int rowOf(std::size_t board) const {
        const auto at = std::lower_bound(boards.begin(), boards.end(), board);
        return static_cast<int>(2 * kinds) + static_cast<int>(at - boards.begin());
    }

    /// Staves have to come out even in every panel of the pool.
    void shareOut(const Kind& pool, std::size_t k, const Columns& columns,
                  const std::vector<std::size_t>& ids, const MixWish& wish) {
        const std::vector<BegunPanel> open = openPanels(pool, wish.accounts->begun(k));
        if (open.size() < 2) {
            return; // what does in sum does
        }
        std::vector<std::pair<int, std::vector<Nm>>> nets;
        for (std::size_t i = 0; i < ids.size(); ++i) {
            std::vector<Nm> staves = wish.accounts->netsOf({&columns.pattern(ids[i]), 1}, k);
            if (!staves.empty()) {
                nets.emplace_back(static_cast<int>(kinds + i), std::move(staves));
            }
        }
        const std::optional<Nm> wanted = addPanelRows(
            pool, open, nets, wish.accounts->netsOf(wish.kept, k), static_cast<int>(k), *this);
        if (wanted) {
            // What counts for the panels together is said by each: no width to spare is asked for,
            // and staves that no panel takes do no harm.
            rowLow[k] = static_cast<double>(std::max<Nm>(0, *wanted)) / demandUnit(pool);
            rowLow[kinds + k] = -COIN_DBL_MAX;
            rowHigh[kinds + k] = COIN_DBL_MAX;
        }
    }

    /// Values of the columns; empty when nothing below the limit was found.
    [[nodiscard]] std::vector<double> solve(const MixLimits& limits, bool cutoff,
                                            const Interrupt& interrupt) const {
        OsiClpSolverInterface solver;
        silence(solver);
        solver.loadProblem(matrix, lower.data(), upper.data(), cost.data(), rowLow.data(),
                           rowHigh.data());
        for (const int column : whole) {
            solver.setInteger(column);
        }
        CbcModel model(solver);
        CbcWatch watch(interrupt);
        limit(model, limits.nodes, watch);
        if (cutoff) {
            model.setCutoff(limits.below / unitOfMoney);
        }
        model.setRandomSeed(1);
        CglKnapsackCover covers;
        CglMixedIntegerRounding2 rounding;
        model.addCutGenerator(&covers, -1, "covers");
        model.addCutGenerator(&rounding, -1, "rounding");
        CbcRounding round(model);
        model.addHeuristic(&round);
        model.branchAndBound();
        const double* best = model.bestSolution();
        return best == nullptr ? std::vector<double>{}
                               : std::vector<double>(best, best + cost.size());
    }
};

} // namespace

std::vector<std::size_t> wholeMix(const Context& context, const Columns& columns,
                                  const std::vector<std::size_t>& ids, const MixWish& wish,
                                  const MixLimits& limits, const Interrupt& interrupt) {
    if (ids.empty()) {
        return {};
    }
    Programme programme(context, columns, ids, wish.open);
    for (std::size_t k = 0; k < programme.kinds; ++k) {
        // Blanks come in whole pieces; the missing width of a panel does not.
        if (!context.problem->kinds[k].isPool) {
            programme.whole.push_back(static_cast<int>(k));
        }
    }
    for (std::size_t i = 0; i < ids.size(); ++i) {
        programme.whole.push_back(static_cast<int>(programme.kinds + i));
    }
    for (std::size_t k = 0; k < programme.kinds && wish.accounts != nullptr; ++k) {
        if (context.problem->kinds[k].isPool) {
            programme.shareOut(context.problem->kinds[k], k, columns, ids, wish);
        }
    }
    const std::vector<double> best = programme.solve(limits, true, interrupt);
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < ids.size() && !best.empty(); ++i) {
        if (best[programme.kinds + i] > 0.5) {
            chosen.push_back(ids[i]);
        }
    }
    return chosen;
}

std::vector<std::size_t> wholeBoards(const Context& context, const Columns& columns,
                                     const std::vector<std::size_t>& ids, const Demand& open,
                                     const std::vector<std::int64_t>& dearness,
                                     const MixLimits& limits, const Interrupt& interrupt) {
    if (ids.empty()) {
        return {};
    }
    Programme programme(context, columns, ids, open);
    // A row for the true cost, then one more column a board: whether it is used.
    const int budget = programme.matrix.getNumRows();
    CoinPackedVector trueCost;
    for (std::size_t i = 0; i < programme.cost.size(); ++i) {
        double own = programme.cost[i];
        if (i >= programme.kinds) {
            own -=
                static_cast<double>(
                    context.problem->boards[columns.column(ids[i - programme.kinds]).board].cost) /
                unitOfMoney;
            programme.cost[i] = own;
        }
        trueCost.insert(static_cast<int>(i), own);
    }
    programme.addRow(trueCost, -COIN_DBL_MAX, limits.below / unitOfMoney);
    const std::size_t first = programme.cost.size();
    for (const std::size_t board : programme.boards) {
        const double price = static_cast<double>(context.problem->boards[board].cost) / unitOfMoney;
        CoinPackedVector used;
        used.insert(programme.rowOf(board), -1);
        used.insert(budget, price);
        programme.whole.push_back(
            programme.addColumn(used, price * static_cast<double>(dearness[board]) / 100, 1));
        programme.rowHigh[static_cast<std::size_t>(programme.rowOf(board))] = 0;
    }
    const std::vector<double> best = programme.solve(limits, false, interrupt);
    std::vector<std::size_t> chosen;
    for (std::size_t b = 0; b < programme.boards.size() && !best.empty(); ++b) {
        if (best[first + b] > 0.5) {
            chosen.push_back(programme.boards[b]);
        }
    }
    return chosen;
}

} // namespace stavewright::cutting
