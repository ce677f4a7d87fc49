#pragma once
// Which boards are alike in everything that the search looks at: one of them stands for all.

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

/// By board, the first board that is equal to it but for the name. A board with fixed blanks is
/// equal to no other.
[[nodiscard]] std::vector<std::size_t> equalBoards(const Problem& problem);

} // namespace stavewright::cutting
