#include "core/cutting/Solve.h"

#include "core/cutting/Search.h"

namespace stavewright::cutting {

Solution solve(const Problem& problem, const Options& options, const Progress& progress,
               const OnImproved& improved) {
    return Search(problem, options, progress, improved).run();
}

} // namespace stavewright::cutting
