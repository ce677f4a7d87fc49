#pragma once
// The most memory this process held since the last restart.

namespace stavewright::cutting::bench {

/// From here on the peak is counted anew (where the system allows it).
void restartPeakMemory();
[[nodiscard]] double peakMegabytes();

} // namespace stavewright::cutting::bench
