#pragma once
// What the tables of the place "Shop rack" say of a piece, and of a board of the job.

#include <vector>

#include "core/rack/JobWood.h"
#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<EntryTitle> pieceTitles(UnitSystem units);
[[nodiscard]] EntryCell pieceCell(const DocumentSession& session, const rack::Piece& piece,
                                  int column);

[[nodiscard]] std::vector<EntryTitle> jobBoardTitles();
/// The board, and what would go to the rack if it were put there.
[[nodiscard]] EntryCell jobBoardCell(const DocumentSession& session, const Board& board,
                                     int column);

/// The column that says where each piece is, of pieceTitles().
inline constexpr int whereColumn = 11;

/// "Board 7 (no. 12)"
[[nodiscard]] QString pieceName(const rack::Piece& piece);
/// "in the job Hall table"
[[nodiscard]] QString whereText(const rack::Piece& piece);

} // namespace stavewright::ui
