#pragma once
// Every way to fill one strip with blanks, by trying them all: for each collection of blanks the
// cheapest row. Input of the mixed-integer model.

#include <map>
#include <vector>

#include "GridJob.h"

namespace stavewright::cutting::exact {

struct Standing {
    std::size_t item = 0;
    int x = 0, y = 0;
};

struct Filling {
    std::vector<int> count; ///< per item
    Cost cost = 0;          ///< crosscuts and trimming rips of its blanks, and fills
    std::vector<Standing> blanks;
};

/// Only rows that touch both edges of the strip: any other costs no less when the strip is made as
/// narrow as its blanks. (That may part it from a neighbour it shared a rip with, one rip more, but
/// at least one blank then needs no trimming rip on that side.)
[[nodiscard]] std::vector<Filling> fillings(const GridJob& job, std::size_t board, int x0, int x1,
                                            int y0, int y1);

} // namespace stavewright::cutting::exact
