#pragma once
// What a symbol needs to know of the outline it is drawn in: its extent, its middle and its
// midline.

#include <optional>

#include "core/drawing/Clip.h"

namespace stavewright::drawing {

struct Extent {
    double lowX = 0;
    double lowY = 0;
    double highX = 0;
    double highY = 0;
    [[nodiscard]] double length() const { return highX - lowX; }
    [[nodiscard]] double width() const { return highY - lowY; }
};
[[nodiscard]] Extent extentOf(const Curve& ring);

/// The spot inside the ring that is about farthest from its edge; the middle of the extent when
/// that is nearly as good, so that a symmetrical outline has its letter in the middle.
[[nodiscard]] Spot roomiestSpot(const Curve& ring);

/// The longest run across the ring at this x.
struct Run {
    double low = 0;
    double high = 0;
    [[nodiscard]] double middle() const { return (low + high) / 2; }
    [[nodiscard]] double half() const { return (high - low) / 2; }
};
[[nodiscard]] std::optional<Run> longestRunAt(const Curve& ring, double x);

} // namespace stavewright::drawing
