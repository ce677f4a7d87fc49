#pragma once
// The engine's pricing of one board, asked for the best pattern at given prices, copies without
// limit.

#include "published/Sheet.h"

namespace stavewright::cutting::bench {

/// Most value that one sheet can give; nothing when the time did not suffice.
[[nodiscard]] std::optional<std::int64_t> bestPrice(const Sheet& sheet, Stages stages,
                                                    double seconds);

} // namespace stavewright::cutting::bench
