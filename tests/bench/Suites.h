#pragma once
// The suites of the bench. Each prints its rows and says whether every plan passed the checker (and
// nothing that must hold was broken); none judges the time it took.

#include "BenchOptions.h"

namespace stavewright::cutting::bench {

[[nodiscard]] bool runRacks(const BenchOptions& options);
[[nodiscard]] bool runKinds(const BenchOptions& options);
[[nodiscard]] bool runWidths(const BenchOptions& options);
[[nodiscard]] bool runCancel(const BenchOptions& options);
[[nodiscard]] bool runScale(const BenchOptions& options);
[[nodiscard]] bool runJobs(const BenchOptions& options);
[[nodiscard]] bool runExact(const BenchOptions& options);
[[nodiscard]] bool runPublished(const BenchOptions& options);

} // namespace stavewright::cutting::bench
