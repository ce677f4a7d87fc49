#include "core/photo/StripColours.h"

#include <array>
#include <cassert>
#include <cmath>

namespace stavewright::photo {

namespace {

double linear(std::uint8_t byte) {
    const double v = byte / 255.0;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

const std::array<double, 256>& linearTable() {
    static const std::array<double, 256> table = [] {
        std::array<double, 256> made{};
        for (std::size_t i = 0; i < made.size(); ++i) {
            made[i] = linear(static_cast<std::uint8_t>(i));
        }
        return made;
    }();
    return table;
}

/// The cube root of CIE 1976, straight near black.
double bent(double t) {
    constexpr double limit = 216.0 / 24389;
    return t > limit ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
}

/// From linear sRGB; the matrix is that of IEC 61966-2-1, its sums the white of D65.
StripColour fromLinear(double r, double g, double b) {
    const double x = 0.4124 * r + 0.3576 * g + 0.1805 * b;
    const double y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    const double z = 0.0193 * r + 0.1192 * g + 0.9505 * b;
    const double fx = bent(x / (0.4124 + 0.3576 + 0.1805));
    const double fy = bent(y);
    const double fz = bent(z / (0.0193 + 0.1192 + 0.9505));
    const auto hundredths = [](double v) {
        return static_cast<std::int32_t>(std::lround(v * 100));
    };
    return {hundredths(116 * fy - 16), hundredths(500 * (fx - fy)), hundredths(200 * (fy - fz))};
}

Length share(Length from, Length to, int part, int parts) {
    return from + (to - from) * part / parts;
}

} // namespace

StripColour colourOf(std::uint8_t red, std::uint8_t green, std::uint8_t blue) {
    return fromLinear(linear(red), linear(green), linear(blue));
}

std::vector<StripColour> stripColours(const ImageView& straightened, const Rect& shown,
                                      const Rect& area, const std::function<Point(Point)>& toBoard,
                                      int strips) {
    assert(strips > 0);
    if (straightened.isEmpty() || shown.isEmpty() || area.isEmpty()) {
        return {};
    }
    constexpr int along = 96; // places in a strip: a knot among them hardly changes the mean
    constexpr int across = 3;
    const double wide = static_cast<double>(shown.length().inNanometres());
    const double high = static_cast<double>(shown.width().inNanometres());
    const std::array<double, 256>& light = linearTable();
    std::vector<StripColour> colours;
    for (int strip = 0; strip < strips; ++strip) {
        std::array<double, 3> sum{};
        int seen = 0;
        for (int i = 0; i < along * across; ++i) {
            const Point at = toBoard({share(area.x0, area.x1, 2 * (i / across) + 1, 2 * along),
                                      share(area.y0, area.y1, 2 * (strip * across + i % across) + 1,
                                            2 * strips * across)});
            const double u = static_cast<double>((at.x - shown.x0).inNanometres()) / wide;
            const double v = static_cast<double>((shown.y1 - at.y).inNanometres()) / high;
            if (u < 0 || u >= 1 || v < 0 || v >= 1) {
                continue;
            }
            const std::uint8_t* pixel = straightened.at(static_cast<int>(u * straightened.width),
                                                        static_cast<int>(v * straightened.height));
            if (pixel[0] == 0 && pixel[1] == 0 && pixel[2] == 0) {
                continue;
            }
            for (std::size_t k = 0; k < sum.size(); ++k) {
                sum[k] += light[pixel[k]];
            }
            ++seen;
        }
        if (2 * seen < along * across) {
            return {};
        }
        colours.push_back(fromLinear(sum[0] / seen, sum[1] / seen, sum[2] / seen));
    }
    return colours;
}

} // namespace stavewright::photo
