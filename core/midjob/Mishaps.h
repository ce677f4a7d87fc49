#pragma once
// What goes wrong in the shop, or turns out to be different: found knots, spoiled blanks, rejected
// boards, warp that was measured again.

#include "core/midjob/ShopEvent.h"

namespace stavewright::midjob {

/// A mark as it is read off a blank in the hand: from the blank's own low end and near edge, on the
/// face that looks up when it is held as its part will lie.
struct OnBlank {
    Length along; ///< where the mark begins
    Length across;
    Length length; ///< how long and wide it is
    Length width;
    BoardFace face = BoardFace::A; ///< of the part
};

/// The defect where it lies on the blank's board; without id and chalk mark. `kind` decides whether
/// it is drawn round.
Result<Defect> markedOnBlank(const Document& document, BlankId blank, DefectKind kind,
                             const OnBlank& mark, bool through);

/// A new defect on the board. Its id and, where it has none, its chalk mark are given here.
Result<ShopEvent> defectFound(const Document& document, BoardId board, Defect defect,
                              const Note& note);

/// The blank was dropped, cut wrong, torn: its wood is gone, and the job wants another. The
/// crosscuts up to it count as made, which is said.
Result<ShopEvent> spoiled(const Document& document, BlankId blank, const Note& note);

/// Nothing more is to come from this board: one that is not begun is kept out of every plan, of one
/// that is begun what is cut stays and the rest goes elsewhere.
Result<ShopEvent> boardRejected(const Document& document, BoardId board, const Note& note);

/// Gaps measured again on a piece of the board that is `along` it, `width` wide; they are carried
/// to the whole board by the square law that warp is reckoned with. Over the whole board they count
/// as they are.
Result<ShopEvent> warpMeasured(const Document& document, BoardId board, Stretch along, Length width,
                               const Warp& measured, const Note& note);

} // namespace stavewright::midjob
