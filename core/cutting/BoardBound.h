#pragma once
// What a board can be worth at most under given prices, whatever pattern of the family is cut from
// it: an upper bound on the pricing problem, so that the master's bound holds for every plan and
// not only for the sections that the search looks at.
//
// Sections are bounded by ranges of cells in which they may begin and end (SectionBound.h). The
// best chain of ranges is found with what is known so far; the ranges on it are looked into, then
// cut where the best of them has room, until the best chain is settled, or is good enough, or the
// looks are used up. The worth of the best chain is a bound at every moment. What was found is
// kept: under prices that are a little different most ranges need not be looked into again.
//
//   BoardBound bound(context, model);
//   Cost most = bound.most(values, goal, interrupt, work);

#include <memory>
#include <vector>

#include "core/cutting/BoundRanges.h"
#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

/// When a bound is good enough.
struct BoundGoal {
    Cost enough = 0;  ///< no better than this is asked for
    int looks = 4000; ///< into ranges of sections, at most, or work that takes as long
};

/// What a bound rests on.
struct BoundChain {
    std::vector<BoundSection> sections; ///< by ascending x, each from its first to its last place
    /// Every section was looked into: the bound is what their blanks are worth, less cuts and
    /// fills.
    bool isWorkedOut = true;
    int looks = 0; ///< that were taken for it, or the work of so many
};

/// Not for two threads at once.
class BoardBound {
  public:
    BoardBound(const Context& context, const BoardModel& model,
               const Interrupt* interrupt = nullptr);

    /// Worth of the blanks less fills and cuts, with offcuts. Nothing of use once the interrupt is
    /// called. `chain`: what the bound rests on. Asked again at the same prices it goes on where it
    /// stopped.
    [[nodiscard]] Cost most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                            std::int64_t& work, BoundChain* chain = nullptr);

  private:
    struct Part {
        BoundStretch stretch;
        KnownRanges known;
    };
    const Context* m_context;
    std::vector<std::unique_ptr<Part>> m_parts;
};

} // namespace stavewright::cutting
