#pragma once
// Jobs that ask for the fewest equal boards: each board costs one, leaving a piece out costs more
// than all boards together.

#include "Measure.h"
#include "published/Families.h"
#include "published/Sheet.h"

namespace stavewright::cutting::bench {

/// Boards that a simple rule needs (shelves, longest pieces first), so that a plan with everything
/// exists on as many.
[[nodiscard]] int shelfBoards(const Sheet& sheet);

/// On a few boards more than the shelves need. Value of the row: boards used; it compares only
/// where isComplete(row).
[[nodiscard]] Row fewestBoards(const Sheet& sheet, const BenchOptions& options, double seconds);

[[nodiscard]] inline bool isComplete(const Row& row) { return row.placed == row.demanded; }
/// The row beside the least number of boards, which no plan can go below.
void compareWith(std::int64_t least, Row& row);
/// More boards than that, as a share; nothing for a plan that leaves something out.
[[nodiscard]] std::optional<double> excess(const Row& row);

/// The better direction of the first cuts, half the time each, beside the boards that cutting in
/// any number of stages needs at least (`lower` of the family, else of the area): a plan in the
/// engine's stages may need more.
void printFewestBoards(const Sheet& sheet, const KnownLine& known, const std::string& lower,
                       const std::string& status, const BenchOptions& options, double seconds,
                       FamilyTable& table);

} // namespace stavewright::cutting::bench
