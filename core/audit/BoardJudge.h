#pragma once
// Judges the layout of one board over and over while the rest of the job stays as it is: what is
// dragged there, a cut that lands off its mark. The same checks as audit(), but for those that
// count the whole plan (demand, totals, ids, groups) and those that only remark.
//
//   const BoardJudge judge(document);
//   if (judge.failures(layout).empty()) ...

#include <memory>
#include <vector>

#include "core/audit/Audit.h"

namespace stavewright {

class BoardJudge {
  public:
    /// The document has to outlive the judge and must not change meanwhile; thicknesses are those
    /// that its plan chose.
    explicit BoardJudge(const Document& document);
    ~BoardJudge();
    BoardJudge(const BoardJudge&) = delete;
    BoardJudge& operator=(const BoardJudge&) = delete;

    /// What is wrong with the layout; empty when nothing is.
    [[nodiscard]] std::vector<Finding> failures(const BoardLayout& layout) const;

    /// Least size at which the wood of this blank still makes its part: finished length and width
    /// (of a stave: the least rough width). Zero where the job asks for no such blank.
    struct LeastWood {
        Length length;
        Length width;
    };
    [[nodiscard]] LeastWood leastWoodFor(const BlankPurpose& purpose) const;

  private:
    struct Known;
    std::unique_ptr<const Known> m_known;
};

} // namespace stavewright
