#pragma once
// The blanks of one strip within given ends: do they still fit, each on wood that is good for it,
// and where? In their order if that goes, else in any other.

#include "core/audit/BoardJudge.h"
#include "core/hand/Ground.h"

namespace stavewright::hand {

/// Which end of the strip gives way; the blanks are pushed to the other one, and the blank at this
/// end may be cut shorter than rough, down to its finished length; more of them where that saves
/// one.
enum class Yielding { LowEnd, HighEnd };

/// Ends of the piece that the blanks come from, u in the section's frame, where second crosscuts
/// made it shorter than its strip.
struct PieceEnds {
    std::optional<Length> from;
    std::optional<Length> to;
};

struct PackedStrip {
    Strip strip;             ///< with the blanks that fit; `actual` is set where a size differs
    std::vector<Blank> lost; ///< that do not fit
};

class Packer {
  public:
    /// All have to outlive the packer.
    Packer(const Document& document, const std::vector<BlankSpec>& specs, const BoardJudge& judge,
           const Board& board, std::shared_ptr<Ground::Known> known = {});

    /// Packs the blanks of a strip of the section into the strip's present width and the section's
    /// present ends, or between `ends`. Blanks that do not fit are left out, from the yielding end
    /// on. `strip` may hold only some of the blanks that `layout` has there;
    /// all else on the board is cut as `layout` says.
    [[nodiscard]] PackedStrip pack(const BoardLayout& layout, const Section& section,
                                   const Strip& strip, Yielding yielding,
                                   const PieceEnds& ends = {}) const;

  private:
    class Fitting;
    /// What the blanks of a strip are cut from, `layout` without them.
    struct Wood {
        const BoardLayout& layout;
        const Section& section;
        const Strip& strip;
        Yielding yielding;
        const PieceEnds& ends;
    };
    /// In this order, by ascending u; so many at the yielding end may be shorter.
    [[nodiscard]] std::optional<std::vector<Rect>>
    placed(const Wood& wood, const std::vector<Blank>& blanks, std::size_t shorter) const;
    /// In any order, which `blanks` is in then.
    [[nodiscard]] std::optional<std::vector<Rect>> placedAnyhow(const Wood& wood,
                                                                std::vector<Blank>& blanks) const;

    const Document& m_document;
    const std::vector<BlankSpec>& m_specs;
    const BoardJudge& m_judge;
    const Board& m_board;
    std::shared_ptr<Ground::Known> m_known;
};

} // namespace stavewright::hand
