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
//   BoundChain chain = bound.restsOn(interrupt, work);
//   bound.leavePrices();

#include <memory>
#include <optional>
#include <vector>

#include "core/cutting/BoundRanges.h"
#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

/// When a bound is good enough.
struct BoundGoal {
    Cost enough = 0;  ///< no better than this is asked for
    int looks = 4000; ///< into ranges of sections, at most, or work that takes as long
    /// Bytes of guessed rows that are kept for going on at the same prices, in each stretch.
    std::size_t mostKept = 0;
};

/// What a bound rests on.
struct BoundChain {
    std::vector<BoundSection> sections; ///< by ascending x, each from its first to its last place
    /// The same with each as short as it may be: where the board narrows, a longer one holds less.
    /// Empty where they are no shorter.
    std::vector<BoundSection> shortest;
    /// Every section was looked into to the end: the bound is what their blanks are worth, less
    /// cuts and fills, and on the lattice they have room.
    bool isWorkedOut = true;
};

/// Not for two threads at once.
class BoardBound {
  public:
    BoardBound(const Context& context, const BoardModel& model,
               const Interrupt* interrupt = nullptr);

    ~BoardBound();

    /// Worth of the blanks less fills and cuts, with offcuts. Nothing of use once the interrupt is
    /// called. Asked again at the same prices it goes on where it stopped.
    [[nodiscard]] Cost most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                            std::int64_t& work);
    /// Looks that the last most() took, or the work of so many.
    [[nodiscard]] int looks() const { return m_looks; }
    /// What the last most() rests on.
    [[nodiscard]] BoundChain restsOn(const Interrupt& interrupt, std::int64_t& work);
    /// What is known of the board's sections; of use until other prices are asked.
    [[nodiscard]] SectionCeilings ceilings() const;
    /// Gives back the memory, some megabytes, that going on at the same prices needs; what was
    /// found is kept.
    void leavePrices();

  private:
    class Part;
    std::vector<std::unique_ptr<Part>> m_parts;
    Cost m_kept = 0; ///< most that the stretches are worth as offcuts that no blank fits in
    const Context* m_context;
    std::optional<Values> m_values; ///< those that the parts are asked at
    int m_looks = 0;
};

} // namespace stavewright::cutting
