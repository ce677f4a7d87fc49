#pragma once
// What a plan costs at least by area alone, at once: blanks cover so much, and no board gives more
// than it has. Weak, but there is nothing to wait for.
//
//   std::optional<Cost> least = boundByArea(context, accounts, models);

#include <optional>
#include <vector>

#include "core/cutting/Accounts.h"

namespace stavewright::cutting {

/// Nothing where nothing is asked for.
[[nodiscard]] std::optional<Cost> boundByArea(const Context& context, const Accounts& accounts,
                                              const std::vector<const BoardModel*>& models);

} // namespace stavewright::cutting
