#pragma once
// Everything that straightened pictures of a board depend on, as one string of bytes: equal keys,
// equal pictures. Marks that the maker puts on the board change nothing of it.

#include <string>

#include "core/lumber/Board.h"

namespace stavewright::ui {

/// Of one face; empty when no photograph shows it.
[[nodiscard]] std::string photosKey(const Board& board, BoardFace face);
/// Of both.
[[nodiscard]] std::string photosKey(const Board& board);

} // namespace stavewright::ui
