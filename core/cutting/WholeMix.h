#pragma once
// The best mix of whole columns: a mixed-integer programme over the columns at hand, solved by Cbc
// in a limited number of nodes.
//
//   std::vector<std::size_t> chosen = wholeMix(context, columns, ids, open, limits, interrupt);

#include <vector>

#include "core/cutting/Columns.h"
#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

struct MixLimits {
    int nodes = 200;
    /// Only mixes cheaper than this are of interest, in Cost; the search ends early without one.
    double below = 1e30;
};

struct MixWish {
    Demand open;
    /// Whose panels the staves shall come out even in; null: their widths count in sum alone.
    const Accounts* accounts = nullptr;
    std::vector<Pattern> kept; ///< what gives staves besides the columns
};

/// Which boards to use: the best mix of columns in fractions in which every board is used whole or
/// not at all. `dearness` scales what each board is said to cost, in percent; the mix still keeps
/// below the limit at true cost. Ascending; empty when no such mix was found.
[[nodiscard]] std::vector<std::size_t>
wholeBoards(const Context& context, const Columns& columns, const std::vector<std::size_t>& ids,
            const Demand& open, const std::vector<std::int64_t>& dearness, const MixLimits& limits,
            const Interrupt& interrupt);

/// Ids of the columns to cut, at most one a board; empty when none was found below the limit.
/// Deterministic, except where the interrupt ends it.
[[nodiscard]] std::vector<std::size_t> wholeMix(const Context& context, const Columns& columns,
                                                const std::vector<std::size_t>& ids,
                                                const MixWish& wish, const MixLimits& limits,
                                                const Interrupt& interrupt);

} // namespace stavewright::cutting
