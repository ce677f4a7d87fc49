#include "core/photo/JointSearch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace stavewright::photo {

namespace {

constexpr int pieces = 32; ///< along the joint; a knot spoils one or two
/// How much more plainly than the other lines around it a joint shows.
constexpr double plainly = 2.5;

/// Mean light of each piece of a row of pixels.
std::array<double, pieces> lightOf(const ImageView& picture, int row) {
    std::array<double, pieces> light{};
    for (int piece = 0; piece < pieces; ++piece) {
        const int from = picture.width * piece / pieces;
        const int to = std::max(from + 1, picture.width * (piece + 1) / pieces);
        std::int64_t sum = 0;
        for (int x = from; x < to; ++x) {
            const std::uint8_t* pixel = picture.at(x, row);
            sum += pixel[0] + pixel[1] + pixel[2];
        }
        light[static_cast<std::size_t>(piece)] =
            static_cast<double>(sum) / (3.0 * static_cast<double>(to - from));
    }
    return light;
}

/// The light of all rows from `low` on, piece by piece.
class LightRows {
  public:
    LightRows(const ImageView& picture, int low, int high)
        : m_low(std::max(0, low)) {
        for (int row = m_low; row <= std::min(high, picture.height - 1); ++row) {
            m_rows.push_back(lightOf(picture, row));
        }
    }
    [[nodiscard]] bool has(int row) const {
        return row >= m_low && row < m_low + static_cast<int>(m_rows.size());
    }
    [[nodiscard]] double at(int row, std::size_t piece) const {
        return m_rows[static_cast<std::size_t>(row - m_low)][piece];
    }

  private:
    int m_low;
    std::vector<std::array<double, pieces>> m_rows;
};

/// A line through the picture: its row at the middle, and how many rows it falls from end to end.
struct LeaningLine {
    double row = 0;
    double fall = 0;

    [[nodiscard]] int at(std::size_t piece) const {
        const double share = (static_cast<double>(piece) + 0.5) / pieces - 0.5;
        return static_cast<int>(std::lround(row + fall * share));
    }
};

double middling(std::array<double, pieces> values) {
    const auto middle = values.begin() + pieces / 2;
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// How much a line looks like a joint: the middling piece's step from above to below, or how much
/// darker it is than both. None where it leaves the rows.
std::optional<double> plainness(const LightRows& light, const LeaningLine& line) {
    constexpr int apart = 2;
    std::array<double, pieces> looks{};
    for (std::size_t i = 0; i < looks.size(); ++i) {
        const int row = line.at(i);
        if (!light.has(row - apart) || !light.has(row + apart)) {
            return std::nullopt;
        }
        const double above = light.at(row - apart, i);
        const double here = light.at(row, i);
        const double below = light.at(row + apart, i);
        looks[i] = std::max(std::abs(above - below), 2 * (std::min(above, below) - here));
    }
    return middling(looks);
}

/// The dark between two staves in one piece: middle and width in rows.
struct Dark {
    double row = 0;
    double rows = 0;
};

/// Where one piece is darker than half way down from the darker of its two sides, within `most`
/// rows of `near`.
std::optional<Dark> darkIn(const LightRows& light, std::size_t piece, int near, int most) {
    constexpr double leastDark = 12; // of 255; less may be an edge that is a little rounded
    if (!light.has(near - 2 * most) || !light.has(near + 2 * most)) {
        return std::nullopt;
    }
    const auto at = [&](int row) { return light.at(row, piece); };
    int darkest = near;
    for (int row = near - most; row <= near + most; ++row) {
        darkest = at(row) < at(darkest) ? row : darkest;
    }
    const double sides = std::min(at(darkest - most), at(darkest + most));
    if (sides - at(darkest) < leastDark) {
        return std::nullopt;
    }
    const double half = (sides + at(darkest)) / 2;
    // Between rows by where the light crosses the half, so that it is known finer than a pixel.
    const auto edge = [&](int step) {
        int row = darkest;
        while (std::abs(row - darkest) < most && at(row + step) <= half) {
            row += step;
        }
        const double rise = std::max(1e-6, at(row + step) - at(row));
        return row + step * std::clamp((half - at(row)) / rise, 0.0, 1.0);
    };
    const double from = edge(-1);
    const double to = edge(1);
    return Dark{(from + to) / 2, to - from};
}

double middlingOf(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Where most pieces show dark, the line is laid through the middle of it (slope and place are the
/// middling ones of all pairs and pieces, so that knots and shadows do not pull it). How many rows
/// are dark; 0 where the two touch.
double followDark(const LightRows& light, LeaningLine& line, int most) {
    std::vector<std::pair<double, Dark>> seen; // by share of the length from the middle
    for (std::size_t piece = 0; piece < pieces; ++piece) {
        if (const auto dark = darkIn(light, piece, line.at(piece), most)) {
            seen.emplace_back((static_cast<double>(piece) + 0.5) / pieces - 0.5, *dark);
        }
    }
    if (seen.size() * 2 < pieces) {
        return 0;
    }
    std::vector<double> falls;
    std::vector<double> widths;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        widths.push_back(seen[i].second.rows);
        for (std::size_t k = i + 1; k < seen.size(); ++k) {
            falls.push_back((seen[k].second.row - seen[i].second.row) /
                            (seen[k].first - seen[i].first));
        }
    }
    line.fall = middlingOf(std::move(falls));
    std::vector<double> places;
    for (const auto& [share, dark] : seen) {
        places.push_back(dark.row - line.fall * share);
    }
    line.row = middlingOf(std::move(places));
    return middlingOf(std::move(widths));
}

/// The line near `expected` that looks most like a joint; none where no line stands out.
std::optional<LeaningLine> lineNear(const LightRows& light, double expected, int rows) {
    std::vector<double> all;
    double best = 0;
    std::optional<LeaningLine> line;
    const int first = static_cast<int>(std::lround(expected - 0.5));
    for (int away = -rows; away <= rows; ++away) {
        for (int fall = -rows; fall <= rows; ++fall) {
            const LeaningLine tried{static_cast<double>(first + away), static_cast<double>(fall)};
            const auto value = plainness(light, tried);
            if (!value) {
                continue;
            }
            if (fall == 0) {
                all.push_back(*value);
            }
            // Where it was expected, and straight, unless the picture says otherwise.
            const double weighed = *value * (1 - 0.3 * std::abs(away) / std::max(1, rows)) *
                                   (1 - 0.2 * std::abs(fall) / std::max(1, rows));
            if (weighed > best) {
                best = weighed;
                line = tried;
            }
        }
    }
    if (all.size() < 5) {
        return std::nullopt;
    }
    const auto ordinary = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
    std::nth_element(all.begin(), ordinary, all.end());
    return best > plainly * std::max(*ordinary, 1.0) ? line : std::nullopt;
}

} // namespace

std::vector<FoundJoint> jointsNear(const ImageView& straightened, const Rect& shown,
                                   const std::vector<Length>& expected, Length reach) {
    constexpr double widestGap = 12; // mm; what is wider is looked at by the maker
    std::vector<FoundJoint> found;
    const double perPixel = shown.width().toMillimetres() / std::max(1, straightened.height);
    const auto lengthOf = [&](double rows) {
        return Length::micrometres(std::llround(rows * perPixel * 1000));
    };
    for (std::size_t i = 0; i < expected.size(); ++i) {
        FoundJoint joint{expected[i]};
        const Length before = i == 0 ? shown.y0 : expected[i - 1];
        const Length behind = i + 1 == expected.size() ? shown.y1 : expected[i + 1];
        const Length most =
            std::min({reach, (expected[i] - before) / 3, (behind - expected[i]) / 3});
        const double middle = (shown.y1 - expected[i]).toMillimetres() / perPixel;
        const int rows = static_cast<int>(most.toMillimetres() / perPixel);
        const int gapRows =
            std::max(3, static_cast<int>(std::min(widestGap, most.toMillimetres()) / perPixel));
        const int room = rows + rows / 2 + gapRows * 3 + 4;
        const int row = static_cast<int>(middle);
        const LightRows light(straightened, row - room, row + room);
        if (std::optional<LeaningLine> line = lineNear(light, middle, rows)) {
            const double dark = followDark(light, *line, gapRows);
            joint = {shown.y1 - lengthOf(line->row + 0.5), true, lengthOf(-line->fall), {}};
            // The blur of a picture alone is a pixel or two.
            constexpr double blur = 2;
            if (dark > blur) {
                joint.gap = lengthOf(dark);
            }
        }
        found.push_back(joint);
    }
    return found;
}

} // namespace stavewright::photo
