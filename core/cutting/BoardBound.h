#pragma once
// What a board can be worth at most under given prices, whatever pattern of the family is cut from
// it: an upper bound on the pricing problem, so that the master's bound holds for every plan and
// not only for the sections that the search looks at.
//
// Sections are bounded by ranges of cells in which they may begin and end (SectionBound.h). The
// best chain of ranges is found with what is known so far; the ranges on it are looked into, then
// halved, until the best chain consists of single cells, or is good enough, or the looks are used
// up. The worth of the best chain is a bound at every moment.
//
//   BoardBound bound(context, model);
//   Cost most = bound.most(values, goal, interrupt, work);

#include <memory>
#include <vector>

#include "core/cutting/Interrupt.h"
#include "core/cutting/SectionBound.h"

namespace stavewright::cutting {

/// When a bound is good enough.
struct BoundGoal {
    Cost enough = 0;  ///< no better than this is asked for
    int looks = 2000; ///< sections that are looked into at most
};

class BoardBound {
  public:
    BoardBound(const Context& context, const BoardModel& model);
    ~BoardBound();
    BoardBound(BoardBound&&) noexcept;
    BoardBound& operator=(BoardBound&&) noexcept;

    /// Worth of the blanks less fills and cuts, with offcuts. Nothing of use once the interrupt is
    /// called. `chain`: the sections that the bound rests on, by ascending x; each may begin with
    /// its first and end with its last place.
    [[nodiscard]] Cost most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                            std::int64_t& work, std::vector<BoundSection>* chain = nullptr) const;

  private:
    class Part; ///< one free stretch
    std::vector<std::unique_ptr<Part>> m_parts;
};

/// The step along that suits the lengths of a problem: near an eighth of an inch, and losing little
/// of them when they are rounded down to it.
[[nodiscard]] Nm stepAlong(const Problem& problem);

} // namespace stavewright::cutting
