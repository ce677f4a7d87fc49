#include "Row.h"

#include <algorithm>
#include <iomanip>
#include <sstream>

namespace stavewright::cutting::bench {

std::string asPercent(const std::optional<double>& share) {
    if (!share) {
        return "-";
    }
    std::ostringstream text;
    text << std::fixed << std::setprecision(1) << *share * 100 << " %";
    return text.str();
}

std::string spread(std::vector<double> shares) {
    if (shares.empty()) {
        return "-";
    }
    std::sort(shares.begin(), shares.end());
    return "median " + asPercent(shares[shares.size() / 2]) + ", worst " +
           asPercent(shares.front());
}

} // namespace stavewright::cutting::bench
