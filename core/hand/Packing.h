#pragma once
// The blanks of one strip within given ends: do they still fit, in their order, each on wood that
// is good for it, and where?

#include "core/audit/BoardJudge.h"
#include "core/hand/Ground.h"

namespace stavewright::hand {

/// Which end of the strip gives way; the blanks are pushed to the other one, and the blank at this
/// end may be cut shorter than rough, down to its finished length.
enum class Yielding { LowEnd, HighEnd };

struct PackedStrip {
    Strip strip;             ///< with the blanks that fit; `actual` is set where a size differs
    std::vector<Blank> lost; ///< that do not fit
};

class Packer {
  public:
    /// All have to outlive the packer. `board` is cut as `layout` says, but for strips that are
    /// packed.
    Packer(const Document& document, const std::vector<BlankSpec>& specs, const BoardJudge& judge,
           const Board& board);

    /// Packs the blanks of a strip of the section into the strip's present width and the section's
    /// present ends. Blanks that do not fit are left out, from the yielding end on.
    [[nodiscard]] PackedStrip pack(const BoardLayout& layout, const Section& section,
                                   const Strip& strip, Yielding yielding) const;

  private:
    [[nodiscard]] std::optional<std::vector<Rect>>
    placed(const BoardLayout& layout, const Section& section, const Strip& strip,
           const std::vector<Blank>& blanks, Yielding yielding) const;

    const Document& m_document;
    const std::vector<BlankSpec>& m_specs;
    const BoardJudge& m_judge;
    const Board& m_board;
};

} // namespace stavewright::hand
