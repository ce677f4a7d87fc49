#pragma once
// The patterns that the search has met, each once, as columns of the master problem.
//
//   Columns columns;
//   columns.add(std::move(pattern), std::move(column));
//   for (std::size_t id : columns.ofBoard(3)) { columns.column(id); }

#include <cstddef>
#include <vector>

#include "core/cutting/Accounts.h"

namespace stavewright::cutting {

/// A pattern as the master sees it.
struct Column {
    std::size_t board = 0;
    Demand yield;
    Cost cost = 0; ///< board, fills and cuts
};

/// The column of a pattern: what it yields and costs.
[[nodiscard]] Column columnOf(const Context& context, const Accounts& accounts,
                              const BoardModel& model, const Pattern& pattern);

/// What a yield is worth under prices, all of it, wanted or not.
[[nodiscard]] Cost worthOf(const Problem& problem, const Demand& yield, const Values& prices);

class Columns {
  public:
    explicit Columns(std::size_t boards)
        : m_ofBoard(boards) {}

    /// False when a column that gives as much for no more money is known already; one that is worse
    /// in everything stays, ids never change.
    bool add(Pattern pattern, Column column);
    [[nodiscard]] std::size_t size() const { return m_columns.size(); }
    [[nodiscard]] const Column& column(std::size_t id) const { return m_columns[id]; }
    [[nodiscard]] const Pattern& pattern(std::size_t id) const { return m_patterns[id]; }
    [[nodiscard]] const std::vector<std::size_t>& ofBoard(std::size_t board) const {
        return m_ofBoard[board];
    }

  private:
    std::vector<Column> m_columns;
    std::vector<Pattern> m_patterns;
    std::vector<std::vector<std::size_t>> m_ofBoard;
};

} // namespace stavewright::cutting
