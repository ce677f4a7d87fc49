#pragma once
// Prices know no limits: where two kinds are alike, the best pattern makes one of them twice and
// none of the other. Here what a pattern makes too much of gives its place to what is still wanted.
//
//   Pattern pattern = withoutSurplus(context, model, std::move(pattern), values, open);

#include "core/cutting/Accounts.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// Sections whose places do not suit anything else that is wanted stay as they are. What becomes of
/// fills and cuts is not looked at.
[[nodiscard]] Pattern withoutSurplus(const Context& context, const BoardModel& model,
                                     Pattern pattern, const Values& values, const Demand& open);

} // namespace stavewright::cutting
