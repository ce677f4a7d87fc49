#pragma once
// How a piece of a board looks from its near to its far edge, in colours that are as far apart as
// the eye sees them.

#include <cstdint>
#include <functional>
#include <vector>

#include "core/geometry/Shapes.h"
#include "core/photo/Image.h"

namespace stavewright::photo {

/// CIE 1976 L*a*b* in hundredths, seen under D65.
struct StripColour {
    std::int32_t lightness = 0;
    std::int32_t a = 0;
    std::int32_t b = 0;
    friend bool operator==(const StripColour&, const StripColour&) = default;
};

/// Of a pixel of an ordinary picture (sRGB, IEC 61966-2-1).
[[nodiscard]] StripColour colourOf(std::uint8_t red, std::uint8_t green, std::uint8_t blue);

/// Mean colours of `strips` strips of `area`, each as long as the area, from its y0 to its y1.
/// `toBoard` leads from the frame of the area to that of the board, of which `straightened` shows
/// `shown` (its upper edge is y1). Empty where less than half of a strip is in the picture; black
/// pixels are what no photograph shows.
[[nodiscard]] std::vector<StripColour> stripColours(const ImageView& straightened,
                                                    const Rect& shown, const Rect& area,
                                                    const std::function<Point(Point)>& toBoard,
                                                    int strips);

} // namespace stavewright::photo
