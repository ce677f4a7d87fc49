#pragma once
// What is different in another plan of the same job.

#include <string>
#include <vector>

#include "core/document/Document.h"

namespace stavewright::midjob {

struct Moved {
    std::vector<BlankPurpose> moved;  ///< other board, other wood or another way round
    std::vector<BlankPurpose> gained; ///< placed only there
    std::vector<BlankPurpose> lost;   ///< placed only before
    int stays = 0;
    BoardFeet lumberMore;
    Money costsMore;
};
/// Staves of one panel are alike: one that lies as another did has not moved.
[[nodiscard]] Moved movedBetween(const Plan& before, const Plan& after);

/// Whether a plan found anew places more, or costs less with what groups that come apart count. One
/// that only has like blanks change places is not worth the moving.
[[nodiscard]] bool isBetter(const Document& document, const Plan& before, const Plan& after);

/// "12 blanks stay, 3 move: R1, R2, S4. It costs $4.10 less and uses 1.2 bd ft less lumber."
[[nodiscard]] std::string sentenceOf(const Document& document, const Moved& moved);

/// One piece, or the staves of one panel, that lie elsewhere: "board 7 at 30 1/8" before and after,
/// without the staves that lie alike in both; "no place" where it has none.
struct Move {
    BlankPurpose purpose;
    std::string before;
    std::string after;
};
[[nodiscard]] std::vector<Move> movesBetween(const Document& document, const Plan& before,
                                             const Plan& after);

} // namespace stavewright::midjob
