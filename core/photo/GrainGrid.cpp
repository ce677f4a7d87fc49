#include "core/photo/GrainGrid.h"

#include <algorithm>
#include <cmath>

#include "core/photo/Matrix.h"

#include <opencv2/imgproc.hpp>

namespace stavewright::photo {

namespace {

/// Working pixels in a cell, each way.
constexpr int perCell = 2;
/// Very long boards are looked at more coarsely.
constexpr double mostCells = 1.2e6;
/// Pixels; finer cells would show nothing new.
constexpr double leastCell = 0.5;

std::vector<cv::Point> ringAt(const std::vector<Pixels>& outline, Pixels origin, double factor,
                              bool upright) {
    std::vector<cv::Point> ring;
    for (const Pixels& p : outline) {
        const double x = (upright ? p.y - origin.y : p.x - origin.x) * factor;
        const double y = (upright ? p.x - origin.x : p.y - origin.y) * factor;
        ring.emplace_back(static_cast<int>(std::lround(x)), static_cast<int>(std::lround(y)));
    }
    return ring;
}

/// Means over boxes, of the wood alone.
cv::Mat around(const cv::Mat& values, const cv::Mat& wood, cv::Size box) {
    cv::Mat sum;
    cv::Mat weight;
    cv::boxFilter(values.mul(wood), sum, CV_32F, box, {-1, -1}, true, cv::BORDER_CONSTANT);
    cv::boxFilter(wood, weight, CV_32F, box, {-1, -1}, true, cv::BORDER_CONSTANT);
    return sum / (weight + 1e-4F);
}

/// Against the clear wood around: dark places are taken as no darker than `darkest` in a second
/// round, so that a large knot does not become its own background.
cv::Mat against(const cv::Mat& values, const cv::Mat& wood, cv::Size box, double darkest) {
    const cv::Mat first = around(values, wood, box);
    cv::Mat held = cv::max(values, first - darkest);
    held = cv::min(held, first + darkest);
    cv::Mat result = (values - around(held, wood, box)).mul(wood);
    return result;
}

double spreadOf(const cv::Mat& light, const cv::Mat& wood) {
    std::vector<float> values;
    for (int y = 0; y < light.rows; y += 3) {
        for (int x = 0; x < light.cols; x += 3) {
            if (wood.at<float>(y, x) > 0.5F) {
                values.push_back(std::abs(light.at<float>(y, x)));
            }
        }
    }
    if (values.empty()) {
        return 0;
    }
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return static_cast<double>(*middle);
}

/// 0 when not darker than `from`, 1 when darker than `to`.
cv::Mat share(const cv::Mat& light, float from, float to) {
    cv::Mat result = (from - light) / (from - to);
    return cv::min(cv::max(result, 0.F), 1.F);
}

} // namespace

GrainGrid::GrainGrid(const ImageView& picture, const FoundBoard& board)
    : m_upright(board.upright) {
    // Only the part of the picture that shows the board.
    const cv::Rect part = cv::boundingRect(ringAt(board.outline, {}, 1, false)) &
                          cv::Rect(0, 0, picture.width, picture.height);
    const cv::Mat rgb = matrixOf(picture)(part);
    m_origin = {static_cast<double>(part.x), static_cast<double>(part.y)};
    const double length = m_upright ? part.height : part.width;
    const double height = m_upright ? part.width : part.height;
    // How wide the board is across the grain: typically, not at most.
    const double area = cv::contourArea(ringAt(board.outline, m_origin, 1, m_upright));
    const double width = std::clamp(area / std::max(1.0, length), 8.0, std::max(8.0, height));
    m_cell = std::max({width / cellsAcross, std::sqrt(length * height / mostCells), leastCell});
    m_columns = std::max(1, static_cast<int>(length / m_cell));
    m_rows = std::max(1, static_cast<int>(height / m_cell));
    m_width = width / m_cell;
    m_sums.resize(static_cast<std::size_t>(m_columns + 1) * static_cast<std::size_t>(m_rows + 1));

    const cv::Size size(m_columns * perCell, m_rows * perCell);
    const cv::Size turned = m_upright ? cv::Size(size.height, size.width) : size;
    cv::Mat small;
    cv::resize(rgb, small, turned, 0, 0,
               turned.width < rgb.cols ? cv::INTER_AREA : cv::INTER_LINEAR);
    if (m_upright) {
        small = small.t();
    }
    cv::Mat wood = cv::Mat::zeros(size, CV_8U);
    cv::fillPoly(wood, std::vector{ringAt(board.outline, m_origin, perCell / m_cell, m_upright)},
                 255);
    if (!board.fillsPicture) {
        // The rim of the picture is no edge of the board.
        cv::erode(wood, wood, cv::getStructuringElement(cv::MORPH_RECT, {7, 7}), {-1, -1}, 1,
                  cv::BORDER_CONSTANT, cv::Scalar(255));
    }
    wood.convertTo(wood, CV_32F, 1.0 / 255);

    std::vector<cv::Mat> colours;
    cv::split(small, colours);
    for (cv::Mat& colour : colours) {
        colour.convertTo(colour, CV_32F, 1, 8);
        cv::log(colour, colour);
    }
    const int w = static_cast<int>(m_width * perCell);
    const cv::Size wide(std::max(3, w * 8 / 10) | 1, std::max(3, w * 4 / 10) | 1);
    const cv::Mat raw = 0.3 * colours[0] + 0.6 * colours[1] + 0.1 * colours[2];
    const cv::Mat light = against(raw, wood, wide, 0.15);
    const cv::Mat warm = against(colours[0] - colours[2], wood, wide, 0.1);
    const cv::Mat green = against(colours[1] - 0.5 * (colours[0] + colours[2]), wood, wide, 0.1);
    m_grainContrast = std::max(10.0, 1000 * spreadOf(light, wood));

    cv::Mat smooth;
    cv::GaussianBlur(light, smooth, {0, 0}, 1.0);
    cv::Mat inner;
    cv::erode(wood, inner, cv::getStructuringElement(cv::MORPH_RECT, {5, 5}));
    cv::Mat along;
    cv::Mat across;
    cv::Sobel(smooth, along, CV_32F, 1, 0, 3, 0.125);
    cv::Sobel(smooth, across, CV_32F, 0, 1, 3, 0.125);
    along = along.mul(inner);
    across = across.mul(inner);
    cv::Mat coarse;
    cv::GaussianBlur(light, coarse, {0, 0}, 2.5);

    // One after the other, so that only one of them is large at a time.
    std::array<cv::Mat, channelCount> channels;
    std::size_t next = 0;
    const auto add = [&](const cv::Mat& channel) {
        cv::resize(channel.mul(wood), channels[next++], {m_columns, m_rows}, 0, 0, cv::INTER_AREA);
    };
    add(256 * wood);
    add(1000 * light);
    add(1000 * light.mul(light));
    add(1000 * warm);
    add(1000 * green);
    add(1e5 * along.mul(along));
    add(1e5 * across.mul(across));
    add(1e5 * along.mul(across));
    add(1000 * share(light, -0.1F, -0.25F));
    add(1000 * share(light, -0.25F, -0.5F));
    add(1000 * share(light, -0.6F, -0.9F));
    add(1000 * cv::abs(light - coarse));
    for (int y = 0; y < m_rows; ++y) {
        std::array<const float*, channelCount> row{};
        for (std::size_t c = 0; c < channelCount; ++c) {
            row[c] = channels[c].ptr<float>(y);
        }
        // Unsigned, so that wrapping round is defined.
        std::array<std::uint32_t, channelCount> run{};
        for (int x = 0; x < m_columns; ++x) {
            const Sums& above = upTo(x + 1, y);
            Sums& here =
                m_sums[static_cast<std::size_t>(y + 1) * static_cast<std::size_t>(m_columns + 1) +
                       static_cast<std::size_t>(x + 1)];
            for (std::size_t c = 0; c < channelCount; ++c) {
                const float held = std::clamp(row[c][x], -30000.F, 30000.F);
                run[c] += static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lrint(held)));
                here[c] = static_cast<std::int32_t>(run[c] + static_cast<std::uint32_t>(above[c]));
            }
        }
    }
}

Pixels GrainGrid::toPicture(double column, double row) const {
    const Pixels turned = m_upright ? Pixels{row, column} : Pixels{column, row};
    return {m_origin.x + turned.x * m_cell, m_origin.y + turned.y * m_cell};
}

Pixels GrainGrid::toGrid(Pixels picture) const {
    const Pixels part{(picture.x - m_origin.x) / m_cell, (picture.y - m_origin.y) / m_cell};
    return m_upright ? Pixels{part.y, part.x} : part;
}

int GrainGrid::valueAt(Channel channel, int x, int y) const {
    const auto c = static_cast<std::size_t>(channel);
    const auto u = [&](int column, int row) {
        return static_cast<std::uint32_t>(upTo(column, row)[c]);
    };
    return static_cast<std::int32_t>(u(x + 1, y + 1) - u(x, y + 1) - u(x + 1, y) + u(x, y));
}

bool GrainGrid::isWood(int x, int y) const {
    const auto u = [&](int column, int row) {
        return static_cast<std::uint32_t>(upTo(column, row)[0]);
    };
    return u(x + 1, y + 1) - u(x, y + 1) - u(x + 1, y) + u(x, y) > 128;
}

} // namespace stavewright::photo
