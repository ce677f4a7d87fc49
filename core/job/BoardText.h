#pragma once
// One board as the JSON that it has in a job file, for what keeps boards outside of jobs.
//
//   Result<Board> same = boardFromJson(boardToJson(board));

#include <string>
#include <string_view>

#include "core/base/Result.h"
#include "core/lumber/Board.h"

namespace stavewright {

/// Compact, canonical: equal boards give equal bytes.
[[nodiscard]] std::string boardToJson(const Board& board);

/// Errors name the JSON pointer, the value and what is allowed. Photographs are named, not found.
Result<Board> boardFromJson(std::string_view text);

/// What validate() asks of a board in a job: a sound outline, defects on the wood, measures in
/// range. Ids and a parent are left out of it, because they are of one job.
Status validateBoard(const Board& board);

} // namespace stavewright
