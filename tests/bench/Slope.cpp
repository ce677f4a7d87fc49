#include "Slope.h"

#include <cmath>

namespace stavewright::cutting::bench {

std::optional<double> slopeOnLogAxes(const std::vector<std::pair<double, double>>& points) {
    double count = 0;
    double sumX = 0;
    double sumY = 0;
    double sumXX = 0;
    double sumXY = 0;
    for (const auto& [size, seconds] : points) {
        const double x = std::log(size);
        const double y = std::log(seconds);
        ++count;
        sumX += x;
        sumY += y;
        sumXX += x * x;
        sumXY += x * y;
    }
    const double spread = count * sumXX - sumX * sumX;
    if (spread <= 0) {
        return std::nullopt;
    }
    return (count * sumXY - sumX * sumY) / spread;
}

} // namespace stavewright::cutting::bench
