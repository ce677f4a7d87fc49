#pragma once
// Where a board is plain-sawn, rift or quartered, as rows of figures.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<EntryTitle> sawnTitles();
[[nodiscard]] EntryCell sawnCell(const DocumentSession& session, const Board& board,
                                 std::size_t region, int column);
/// One more region: the whole board to begin with, else from where the last one ends.
[[nodiscard]] Board withOneMoreRegion(const Board& board);

} // namespace stavewright::ui
