#pragma once
// What the place Lumber does to the rack, as edits: a new board like the last one, a copy, a board
// less, a defect more.

#include "core/document/Edit.h"

namespace stavewright::ui {

/// The selected board, or the first when none is.
[[nodiscard]] const Board* shownBoard(const Document& document, const std::optional<BoardId>& id);

/// A board at the end of the rack: of the kind of the last one, or a plain board to begin with.
[[nodiscard]] Board newBoard(const Document& document);
/// A copy with a mark and ids of its own.
[[nodiscard]] Board copyOf(const Document& document, const Board& board);
/// Takes the board off the rack, and the plan with it when that cuts the board.
[[nodiscard]] Edit removal(const Document& document, BoardId board);

/// An inch of the kind, or of the last one's kind, to begin with, beside the last defect of the
/// board; a line in wood is as wide as one.
[[nodiscard]] Defect newDefect(const Document& document, const Board& board,
                               std::optional<DefectKind> kind = std::nullopt);
/// "K4" after "K3"; the number is the first that is free.
[[nodiscard]] std::string freeDefectMark(const Board& board);

[[nodiscard]] inline Edit replacing(Board board) { return Edit{ReplaceBoard{std::move(board)}}; }

} // namespace stavewright::ui
