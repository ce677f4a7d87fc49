#include "core/lumber/SurfaceMeasure.h"

#include <algorithm>

namespace stavewright {

std::int64_t SurfaceMeasureTally::add(Length length, Length width) {
    // Whole feet of length count, width counts in full (NHLA rules, surface measure).
    const std::int64_t feet = length / Length::inches(12);
    const std::int64_t twelve = Length::inches(12).inNanometres();
    const Length area = width * feet; // in inch-feet: a twelfth of it is square feet
    std::int64_t measure = area.inNanometres() / twelve;
    const std::int64_t rest = area.inNanometres() % twelve;
    if (rest * 2 > twelve) {
        ++measure;
    } else if (rest * 2 == twelve) {
        measure += m_nextHalfGoesUp ? 1 : 0;
        m_nextHalfGoesUp = !m_nextHalfGoesUp;
    }
    return measure;
}

BoardFeet tallied(std::int64_t surfaceMeasure, Quarter quarter) {
    // Stock under an inch is counted as an inch.
    const std::int64_t quarters = std::max(quarter.quarters, 4);
    return BoardFeet::millionths(surfaceMeasure * quarters * 250'000);
}

BoardFeet boardFeetOfSize(Length thickness, Length width, Length length) {
    return BoardFeet::ofVolume(width * length * thickness);
}

} // namespace stavewright
