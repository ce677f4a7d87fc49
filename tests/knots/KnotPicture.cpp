#include "tests/knots/KnotPicture.h"

#include <algorithm>

namespace stavewright::knots {

double common(const Box& a, const Box& b) {
    const double w = std::min(a.x1, b.x1) - std::max(a.x0, b.x0);
    const double h = std::min(a.y1, b.y1) - std::max(a.y0, b.y0);
    return w > 0 && h > 0 ? w * h : 0;
}

double overlap(const Box& a, const Box& b) {
    const double both = common(a, b);
    return both <= 0 ? 0 : both / (a.area() + b.area() - both);
}

} // namespace stavewright::knots
