#pragma once
// Which way the lines of the figure run in a strip of wood, and how plainly, from a straightened
// photograph: the structure tensor of the strip (Bigün and Granlund 1987, Optimal orientation
// detection of linear symmetry, from memory).

#include <cstdint>
#include <functional>
#include <optional>

#include "core/geometry/Shapes.h"
#include "core/photo/Image.h"

namespace stavewright::photo {

struct LineDirection {
    /// Against x of the strip's frame, in tenths of a degree, above -900 to 900; positive where the
    /// lines rise in y as they go along x.
    std::int32_t angleTenths = 0;
    /// Coherence of the tensor: 100 where all lines run alike, 0 where they run every way or where
    /// there are none.
    std::int32_t surePercent = 0;
    friend bool operator==(const LineDirection&, const LineDirection&) = default;
};

/// `toPicture` leads from the strip's frame to that of the picture, which shows `shown` (its upper
/// edge is y1). Nothing where less than half of the strip is in the picture; black pixels are what
/// no photograph shows.
[[nodiscard]] std::optional<LineDirection> linesIn(const ImageView& straightened, const Rect& shown,
                                                   const Rect& strip,
                                                   const std::function<Point(Point)>& toPicture);

} // namespace stavewright::photo
