#pragma once
// Looks for a better plan among sections that are known already: some boards are emptied and filled
// anew out of the store, over and over, thousands of times a second. Whether panels come out even
// is left to the accounts; what is found here is a proposal.
//
//   RemixWish wish{values, open, asked, patterns, shares};
//   Remixed remixed = remix(store, wish, seed, rounds, interrupt);

#include "core/cutting/Columns.h"
#include "core/cutting/Interrupt.h"
#include "core/cutting/SectionStore.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

struct RemixWish {
    Values values;               ///< what blanks are thought to be worth
    Demand open;                 ///< what is wanted
    Demand asked;                ///< what is aimed at: as much, or a little more
    std::vector<Pattern> from;   ///< the plan to begin with
    std::vector<Column> columns; ///< of its patterns
    /// The plan may cost so much, and the less it lacks, by what that is thought to be worth, the
    /// better; 0: it may cost anything, and what is missing costs its penalty.
    Cost ceiling = 0;
};

struct Remixed {
    /// Cheapest first; each cheaper than the plan to begin with, as far as can be told.
    std::vector<std::vector<Pattern>> plans;
    std::int64_t work = 0;
};

[[nodiscard]] Remixed remix(const SectionStore& store, const Problem& problem,
                            const Accounts& accounts, const RemixWish& wish, std::uint64_t seed,
                            int rounds, const Interrupt& interrupt);

} // namespace stavewright::cutting
