#pragma once
// Two plans of one job held against each other, in words.

#include <string>
#include <string_view>

#include "core/planning/Figures.h"

namespace stavewright::choices {

/// "$4.10 more"; "nothing more" when they are equal.
[[nodiscard]] std::string moreOrLess(Money difference, std::string_view currency);

/// "1 knot", "3 knots"
[[nodiscard]] std::string countedNoun(std::int64_t count, const char* one, const char* many);

/// What `plan` gives up and gains against `other`: "costs $4.10 more; 3 knots fewer on show". Money
/// first, then what differs.
[[nodiscard]] std::string against(const PlanFigures& plan, const PlanFigures& other,
                                  const JobInfo& info);

} // namespace stavewright::choices
