#pragma once
// One crosscut or rip of the plan in the maker's hand: where it is held everything may still come
// out, or something is in the way. Its blanks stay where they are, but for staves that fill a strip
// beside a rip: they change their width with it.
//
//   Result<CutDrag> drag = CutDrag::take(document, board, cut);
//   CutDrag::Held held = drag.value().at(reading, snapWithin);
//   if (held.isLegal) session.edit(tr("Move a crosscut"), drag.value().drop(held.where).value());

#include <memory>

#include "core/document/Edit.h"
#include "core/hand/Cuts.h"

namespace stavewright::hand {

/// The cut at another reading; a cut that two pieces share goes for both. Refused where something
/// at it is locked or cut, and past the other end of a piece.
Result<Edit> moveCut(const Document& document, BoardId board, const CutRef& cut, Length where);

class CutDrag {
  public:
    static Result<CutDrag> take(const Document& document, BoardId board, const CutRef& cut);
    CutDrag(CutDrag&&) noexcept;
    ~CutDrag();

    struct Held {
        Length where; ///< reading, snapped
        bool isLegal = false;
        std::string words;             ///< one line for the foot of the window
        std::string snappedTo;         ///< "K3", "the end of R2"; empty: nothing
        std::optional<Length> nearest; ///< the legal place next to it, on the way back to its mark
    };
    /// Held at this reading; places within `snapWithin` draw it, zero: none.
    [[nodiscard]] Held at(Length where, Length snapWithin) const;
    [[nodiscard]] Result<Edit> drop(Length where) const;

    [[nodiscard]] BoardId board() const;
    [[nodiscard]] const CutRef& cut() const;
    [[nodiscard]] Length mark() const; ///< where the plan has it

  private:
    struct Inner;
    explicit CutDrag(std::unique_ptr<Inner> inner);
    std::unique_ptr<Inner> m_inner;
};

} // namespace stavewright::hand
