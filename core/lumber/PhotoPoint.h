#pragma once
// Places in a photograph. Pixels are counted from the top left corner of the upright picture (its
// EXIF turn already honoured), x to the right, y down; the middle of the first pixel is (0.5, 0.5).

#include <cmath>
#include <cstdint>

namespace stavewright::photo {

/// For calculating.
struct Pixels {
    double x = 0;
    double y = 0;
    friend constexpr bool operator==(const Pixels&, const Pixels&) = default;
};

/// As it is kept in a job: whole thousandths of a pixel, so that it is written and read back
/// exactly.
struct PhotoPoint {
    std::int64_t x = 0; ///< thousandths of a pixel
    std::int64_t y = 0; ///< thousandths of a pixel

    [[nodiscard]] static PhotoPoint at(Pixels place) {
        return {std::llround(place.x * 1000), std::llround(place.y * 1000)};
    }
    [[nodiscard]] constexpr Pixels pixels() const {
        return {static_cast<double>(x) / 1000, static_cast<double>(y) / 1000};
    }
    friend constexpr bool operator==(const PhotoPoint&, const PhotoPoint&) = default;
};

} // namespace stavewright::photo
