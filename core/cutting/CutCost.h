#pragma once
// What cutting one pattern costs besides its board: fills, crosscuts, rips, less the worth of
// offcuts that are large enough to keep. Cuts are counted by the rules of PlanTotals
// (core/layout/Plan.h).

#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

struct CutCost {
    Cost total = 0;
    int fills = 0;
    int crosscuts = 0;
    int rips = 0;
    Cost offcutsWorth = 0;
};

[[nodiscard]] CutCost patternCost(const Context& context, const BoardModel& model,
                                  const Pattern& pattern);

} // namespace stavewright::cutting
