#include "core/cutting/Columns.h"

#include "core/cutting/CutCost.h"

namespace stavewright::cutting {

namespace {

__extension__ typedef __int128 Wide;

/// `a` gives at least what `b` gives, with no more staves and money.
bool isAsGood(const Column& a, const Column& b) {
    if (a.cost > b.cost) {
        return false;
    }
    for (std::size_t k = 0; k < a.yield.open.size(); ++k) {
        // More staves than the other only for more width would be a different bargain.
        if (a.yield.open[k] < b.yield.open[k] || a.yield.staves[k] > b.yield.staves[k]) {
            return false;
        }
    }
    return true;
}

} // namespace

Column columnOf(const Context& context, const Accounts& accounts, const BoardModel& model,
                const Pattern& pattern) {
    Column column;
    column.board = static_cast<std::size_t>(pattern.board);
    column.yield = accounts.yieldOf(pattern);
    column.cost = patternCost(context, model, pattern).total + model.price();
    return column;
}

Cost worthOf(const Problem& problem, const Demand& yield, const Values& prices) {
    Wide worth = 0;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        if (problem.kinds[k].isPool) {
            worth += static_cast<Wide>(prices.perMetre[k]) * yield.open[k] / nanometresPerMetre;
            worth += static_cast<Wide>(prices.each[k]) * yield.staves[k];
        } else {
            worth += static_cast<Wide>(prices.each[k]) * yield.open[k];
        }
    }
    return static_cast<Cost>(worth);
}

bool Columns::add(Pattern pattern, Column column) {
    if (pattern.sections.empty()) {
        return false;
    }
    std::vector<std::size_t>& known = m_ofBoard[column.board];
    for (const std::size_t id : known) {
        if (isAsGood(m_columns[id], column)) {
            return false;
        }
    }
    known.push_back(m_columns.size());
    m_columns.push_back(std::move(column));
    m_patterns.push_back(std::move(pattern));
    return true;
}

} // namespace stavewright::cutting
