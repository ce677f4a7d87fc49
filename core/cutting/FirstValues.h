#pragma once
// What blanks are taken to be worth before anything is known of how they fit the boards.

#include <vector>

#include "core/cutting/BoardModel.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// By kind; `models`: all the boards.
[[nodiscard]] Values firstValues(const Problem& problem,
                                 const std::vector<const BoardModel*>& models);

} // namespace stavewright::cutting
