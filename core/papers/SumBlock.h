#pragma once
// "Why this size?": the three sums of a blank side by side, line by line, so that each can be added
// up with a pencil.

#include "core/milling/BlankSpec.h"
#include "core/papers/Flow.h"

namespace stavewright::papers {

[[nodiscard]] FlowRow sumRow(const JobInfo& info, const std::vector<SumLine>& sums, Length width,
                             const TextMeasure& measure);

} // namespace stavewright::papers
