#include "core/cutting/PanelRows.h"

#include <algorithm>
#include <functional>
#include <iterator>
#include <map>
#include <numeric>

#include <coin/CoinFinite.hpp>

#include "core/cutting/MixUnits.h"

namespace stavewright::cutting {

namespace {

/// Panels times different widths: with more, branching drowns, and sharing out is easy anyway.
constexpr std::size_t mostShares = 400;

/// How many staves of a width there are.
struct Supply {
    CoinPackedVector columns; ///< by column of the programme
    int given = 0;
};

} // namespace

int MixRows::addColumn(const CoinPackedVector& column, double price, double most) {
    matrix.appendCol(column);
    cost.push_back(price);
    lower.push_back(0);
    upper.push_back(most);
    return static_cast<int>(cost.size()) - 1;
}

void MixRows::addRow(const CoinPackedVector& row, double low, double high) {
    matrix.appendRow(row);
    rowLow.push_back(low);
    rowHigh.push_back(high);
}

std::vector<BegunPanel> openPanels(const Kind& pool, const std::vector<BegunPanel>& panels) {
    std::vector<BegunPanel> open;
    std::copy_if(panels.begin(), panels.end(), std::back_inserter(open),
                 [&](const BegunPanel& panel) {
                     return panel.net < pool.netWanted && panel.staves < pool.most;
                 });
    return open;
}

std::optional<Nm> addPanelRows(const Kind& pool, const std::vector<BegunPanel>& open,
                               const std::vector<std::pair<int, std::vector<Nm>>>& nets,
                               const std::vector<Nm>& given, int leftOut, MixRows& programme) {
    std::map<Nm, Supply, std::greater<>> byWidth;
    for (const auto& [column, staves] : nets) {
        std::map<Nm, int> count;
        for (const Nm net : staves) {
            ++count[net];
        }
        for (const auto& [net, number] : count) {
            byWidth[net].columns.insert(column, -number);
        }
    }
    for (const Nm net : given) {
        ++byWidth[net].given;
    }
    if (open.size() < 2 || open.size() * byWidth.size() > mostShares) {
        return std::nullopt;
    }
    std::vector<CoinPackedVector> width(open.size());
    std::vector<CoinPackedVector> number(open.size());
    for (const auto& [net, supply] : byWidth) {
        CoinPackedVector taken = supply.columns;
        for (std::size_t p = 0; p < open.size(); ++p) {
            const int share = programme.addColumn({}, 0, pool.most - open[p].staves);
            programme.whole.push_back(share);
            taken.insert(share, 1);
            width[p].insert(share, static_cast<double>(net) / demandUnit(pool));
            number[p].insert(share, 1);
        }
        programme.addRow(taken, -COIN_DBL_MAX, supply.given);
    }
    Nm wanted = 0;
    CoinPackedVector lacking;
    for (std::size_t p = 0; p < open.size(); ++p) {
        // Equal panels: the first is the widest.
        if (p > 0 && open[p].net == open[p - 1].net && open[p].staves == open[p - 1].staves) {
            CoinPackedVector order = width[p - 1];
            for (int i = 0; i < width[p].getNumElements(); ++i) {
                order.insert(width[p].getIndices()[i], -width[p].getElements()[i]);
            }
            programme.addRow(order, 0, COIN_DBL_MAX);
        }
    }
    for (std::size_t p = 0; p < open.size(); ++p) {
        wanted += pool.netWanted - open[p].net;
        const int lacks = programme.addColumn({}, 0, COIN_DBL_MAX);
        lacking.insert(lacks, 1);
        width[p].insert(lacks, 1);
        // What is too wide by less than a stave can give is trimmed afterwards.
        const Nm widest = pool.netMost + pool.widest - pool.width;
        programme.addRow(width[p],
                         static_cast<double>(pool.netWanted - open[p].net) / demandUnit(pool),
                         static_cast<double>(widest - open[p].net) / demandUnit(pool));
        programme.addRow(number[p], -COIN_DBL_MAX, pool.most - open[p].staves);
        number[p].insert(lacks, stavesLeftOut(pool));
        programme.addRow(number[p], std::max(0, pool.fewest - open[p].staves), COIN_DBL_MAX);
    }
    lacking.insert(leftOut, -1);
    programme.addRow(lacking, -COIN_DBL_MAX, 0);
    return wanted - std::accumulate(given.begin(), given.end(), Nm{0});
}

} // namespace stavewright::cutting
