#pragma once
// A row as one JSON object, for other programs.

#include <string>

#include "Row.h"

namespace stavewright::cutting::bench {

[[nodiscard]] std::string asJson(const Row& row);

} // namespace stavewright::cutting::bench
