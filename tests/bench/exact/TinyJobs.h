#pragma once
// Jobs so small that their best plan can be known: to 3 boards and 6 blanks, with defects on both
// faces, fills, zones, kerfs, inch and metric, some with a panel of free stave widths.

#include "core/cutting/Problem.h"

namespace stavewright::cutting::exact {

struct TinyJob {
    Problem problem;
    Nm unit = 0; ///< all its sizes are whole multiples
    bool metric = false;
};

/// The same seed gives the same job everywhere; even ones are metric.
[[nodiscard]] TinyJob tinyJob(std::uint64_t seed);

} // namespace stavewright::cutting::exact
