#pragma once
// Which column of somebody's table is what: by its heading, or by what stands in it. The guess can
// be changed column by column before the rows are taken.

#include <vector>

#include "core/tally/TallyTable.h"
#include "core/tally/TextTable.h"

namespace stavewright {

struct SourceColumn {
    std::string heading; ///< as it stands in the table; empty without headings
    TallyField field = TallyField::LeaveOut;
    TallyUnit unit = TallyUnit::None; ///< of bare numbers below it
    friend bool operator==(const SourceColumn&, const SourceColumn&) = default;
};

struct ColumnMap {
    bool hasHeadings = false;
    std::vector<SourceColumn> columns; ///< one for each column of the table
    friend bool operator==(const ColumnMap&, const ColumnMap&) = default;
};

/// With headings: by them, in any order; columns with a heading that we do not know go into the
/// notes under it. Without: quarters, species and prices by their looks, lengths and widths by
/// their sizes, the rest in the order of the call.
[[nodiscard]] ColumnMap guessColumns(const TextTable& table, UnitSystem units);

/// The rows of the table as rows of a tally; units of headings are put behind bare numbers, rows
/// that stand for several boards alike are repeated.
[[nodiscard]] std::vector<TallyRow> rowsOf(const TextTable& table, const ColumnMap& map);

/// So many more rows like this one; a typed mark counts on.
[[nodiscard]] std::vector<TallyRow> moreLike(const TallyRow& row, std::size_t count);

} // namespace stavewright
