#pragma once
// Part of the job solved well: a few boards and the demand they have to meet. Columns are priced
// against what is still open, so that no column makes much more than can be used, and the best mix
// of whole columns is chosen.
//
//   PartWish wish{open, boards, values, rounds, nodes};
//   PartResult result = solvePart(stock, columns, wish, interrupt);

#include "core/cutting/Columns.h"
#include "core/cutting/Construct.h"

namespace stavewright::cutting {

struct PartWish {
    Demand open;
    std::vector<std::size_t> boards;    ///< ascending
    Values values;                      ///< prices to begin with
    int rounds = 4;                     ///< of pricing
    int diveRounds = 2;                 ///< of pricing at each step of the dive
    int nodes = 50;                     ///< of the mixed-integer programme
    double below = 1e30;                ///< only a cheaper result is of interest, Cost
    int marginPercent = 0;              ///< the boards shall hold so much more than is open
    std::vector<std::int64_t> dearness; ///< by board, percent: what it is said to cost
    std::vector<Pattern> kept; ///< of other boards; the staves shall come out even with them
};

struct PartResult {
    std::vector<Pattern> patterns;    ///< empty when nothing below the limit was found
    std::vector<Pattern> dived;       ///< another proposal
    std::vector<Pattern> newPatterns; ///< met on the way, for the others to use
    std::vector<Column> newColumns;   ///< of newPatterns
    double bestMix = 0;               ///< cost of the fractional mix; guesses, not bounds
    std::int64_t work = 0;
};

[[nodiscard]] PartResult solvePart(const Stock& stock, const Columns& known, const PartWish& wish,
                                   const Interrupt& interrupt);

/// The dive alone, over any of the boards; one in `oneIn` of the columns in use is taken at a step.
[[nodiscard]] PartResult divePart(const Stock& stock, const Columns& known, const PartWish& wish,
                                  int oneIn, const Interrupt& interrupt);

} // namespace stavewright::cutting
