#include "PeakMemory.h"

#include <fstream>
#include <limits>
#include <string>

namespace stavewright::cutting::bench {

void restartPeakMemory() {
    // "5" resets the high-water mark; see proc(5).
    std::ofstream("/proc/self/clear_refs") << 5;
}

double peakMegabytes() {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
        if (word == "VmHWM:") {
            double kilobytes = 0;
            status >> kilobytes;
            return kilobytes / 1024;
        }
        status.ignore(std::numeric_limits<std::streamsize>::max(), '\n');
    }
    return 0;
}

} // namespace stavewright::cutting::bench
