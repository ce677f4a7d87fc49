#pragma once
// Private to core/midjob: what marking cuts as made does to the tree.

#include "core/midjob/Settle.h"

namespace stavewright::midjob {

[[nodiscard]] Error noPlan();
/// Null where the plan does not cut the board.
[[nodiscard]] BoardLayout* layoutIn(Plan& plan, BoardId board);
/// A section that nothing is cut from: waste, so that the cut beside it counts as made.
void addWaste(Document& after, BoardLayout& layout, Stretch along);
/// Both its crosscuts are made.
void cutOut(Section& section);
/// Everything before the reading is off the board too.
void cutBefore(BoardLayout& layout, Length reading);

/// " This takes as made on their marks: crosscuts of board 3 at 27" and 53"." of the crosscuts of
/// the board that `now` has made and `before` has not; empty where there are none.
[[nodiscard]] std::string takenAsMade(const Document& before, const Document& now, BoardId board);

/// A chalk mark that the board does not have yet: the letter and a number.
[[nodiscard]] std::string freeMark(const Board& board, const std::string& letter);

/// The polygon held inside the board's outline, where a mark on a rounded frame leans out of it by
/// a hair.
[[nodiscard]] FaceMark heldOn(const Board& board, Polygon outline);

/// No part may come from that wood again. It is a split through the board, which no rule that a
/// shop would set lets in.
void markGone(Document& after, BoardId id, Polygon wood, const std::string& note);

} // namespace stavewright::midjob
