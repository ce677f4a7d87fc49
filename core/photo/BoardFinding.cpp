#include "core/photo/BoardFinding.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "core/photo/Matrix.h"

#include <opencv2/imgproc.hpp>

namespace stavewright::photo {

namespace {

/// The picture is looked at this small; boards are large things.
constexpr int lookedAt = 480;

cv::Mat reduced(const ImageView& picture, int longSide) {
    const double factor =
        std::min(1.0, static_cast<double>(longSide) / std::max(picture.width, picture.height));
    cv::Mat small;
    cv::resize(matrixOf(picture), small,
               {std::max(1, static_cast<int>(std::lround(picture.width * factor))),
                std::max(1, static_cast<int>(std::lround(picture.height * factor)))},
               0, 0, cv::INTER_AREA);
    return small;
}

/// Brightness, and how much warmer than grey, in logarithms so that light does not matter.
std::array<cv::Mat, 2> toneOf(const cv::Mat& rgb) {
    std::vector<cv::Mat> parts;
    cv::split(rgb, parts);
    std::array<cv::Mat, 3> logs;
    for (std::size_t i = 0; i < 3; ++i) {
        parts[i].convertTo(logs[i], CV_32F, 1, 10);
        cv::log(logs[i], logs[i]);
    }
    return {(logs[0] + logs[1] + logs[2]) / 3, logs[0] - logs[2]};
}

/// Otsu's threshold of any channel, on 256 steps between its ends.
cv::Mat splitByOtsu(const cv::Mat& channel) {
    cv::Mat bytes;
    cv::Mat mask;
    cv::normalize(channel, bytes, 0, 255, cv::NORM_MINMAX, CV_8U);
    cv::threshold(bytes, mask, 0, 255, cv::THRESH_BINARY | cv::THRESH_OTSU);
    return mask;
}

struct Candidate {
    cv::Mat mask;
    double merit = 0;
};

/// The largest patch without its holes; knots are holes.
std::optional<cv::Mat> largestPatch(const cv::Mat& mask) {
    cv::Mat closed;
    cv::morphologyEx(mask, closed, cv::MORPH_OPEN,
                     cv::getStructuringElement(cv::MORPH_ELLIPSE, {5, 5}));
    std::vector<std::vector<cv::Point>> rings;
    cv::findContours(closed, rings, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    if (rings.empty()) {
        return std::nullopt;
    }
    const auto largest =
        std::max_element(rings.begin(), rings.end(), [](const auto& a, const auto& b) {
            return cv::contourArea(a) < cv::contourArea(b);
        });
    cv::Mat patch = cv::Mat::zeros(mask.size(), CV_8U);
    cv::drawContours(patch, rings, static_cast<int>(largest - rings.begin()), 255, cv::FILLED);
    return patch;
}

/// How far board and background differ next to each other, in terms of how much each varies there.
double separation(const cv::Mat& patch, const std::array<cv::Mat, 2>& tone) {
    const int reach = std::max(3, std::min(patch.rows, patch.cols) / 16);
    const cv::Mat element =
        cv::getStructuringElement(cv::MORPH_RECT, {2 * reach + 1, 2 * reach + 1});
    const cv::Mat gap = cv::getStructuringElement(cv::MORPH_RECT, {3, 3});
    cv::Mat wide;
    cv::Mat justOutside;
    cv::Mat narrow;
    cv::Mat justInside;
    cv::dilate(patch, wide, element);
    cv::dilate(patch, justOutside, gap);
    cv::erode(patch, narrow, element);
    cv::erode(patch, justInside, gap);
    const cv::Mat outside = wide & ~justOutside;
    const cv::Mat inside = justInside & ~narrow;
    if (cv::countNonZero(outside) < 50 || cv::countNonZero(inside) < 50) {
        return 0;
    }
    double best = 0;
    for (const cv::Mat& channel : tone) {
        cv::Scalar in;
        cv::Scalar inSpread;
        cv::Scalar out;
        cv::Scalar outSpread;
        cv::meanStdDev(channel, in, inSpread, inside);
        cv::meanStdDev(channel, out, outSpread, outside);
        best = std::max(best, std::abs(in[0] - out[0]) / (inSpread[0] + outSpread[0] + 0.05));
    }
    return best;
}

double rectangularity(const cv::Mat& patch) {
    std::vector<std::vector<cv::Point>> rings;
    cv::findContours(patch, rings, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    if (rings.empty()) {
        return 0;
    }
    std::vector<cv::Point> hull;
    cv::convexHull(rings.front(), hull);
    const double area = cv::contourArea(rings.front());
    const double box = static_cast<double>(cv::minAreaRect(hull).size.area());
    // A board seen askew fills its hull, if not its box.
    return std::min(area / std::max(1.0, cv::contourArea(hull)), area / std::max(1.0, box) / 0.8);
}

/// How much of the middle of the picture a patch covers: whoever photographs a board aims at it.
double shareOfMiddle(const cv::Mat& patch) {
    const cv::Rect middle(patch.cols * 4 / 10, patch.rows * 4 / 10, std::max(1, patch.cols / 5),
                          std::max(1, patch.rows / 5));
    return static_cast<double>(cv::countNonZero(patch(middle))) / middle.area();
}

std::optional<cv::Mat> boardPatch(const cv::Mat& rgb) {
    const std::array<cv::Mat, 2> tone = toneOf(rgb);
    const double whole = static_cast<double>(rgb.total());
    std::optional<Candidate> best;
    for (const cv::Mat& channel : {tone[0], tone[1], cv::Mat(tone[0] + tone[1])}) {
        const cv::Mat high = splitByOtsu(channel);
        for (const cv::Mat& mask : {high, cv::Mat(~high)}) {
            const std::optional<cv::Mat> patch = largestPatch(mask);
            if (!patch) {
                continue;
            }
            const double share = cv::countNonZero(*patch) / whole;
            const double shape = rectangularity(*patch);
            if (share < 0.15 || share > 0.985 || shape < 0.85 || shareOfMiddle(*patch) < 0.5) {
                continue;
            }
            const double apart = separation(*patch, tone);
            // The background reaches the rim of the picture all round or on two sides; boards are
            // lighter or warmer than the shop behind them more often than not.
            const double lighter = cv::mean(channel, *patch)[0] > cv::mean(channel, ~*patch)[0];
            const double merit = apart * shape * shape * (lighter > 0 ? 1.0 : 0.5);
            if (apart > 1.6 && (!best || merit > best->merit)) {
                best = Candidate{*patch, merit};
            }
        }
    }
    return best ? std::optional(best->mask) : std::nullopt;
}

/// More change across than along: the grain runs along. Elongated boards run along their length.
bool grainIsUpright(const cv::Mat& rgb, const cv::Mat& mask) {
    const cv::Rect box = cv::boundingRect(mask);
    if (box.width > 1.7 * box.height || box.height > 1.7 * box.width) {
        return box.height > box.width;
    }
    const cv::Mat light = toneOf(rgb)[0];
    cv::Mat inside;
    cv::erode(mask, inside, cv::getStructuringElement(cv::MORPH_RECT, {9, 9}));
    cv::Mat along;
    cv::Mat across;
    cv::Sobel(light, along, CV_32F, 1, 0);
    cv::Sobel(light, across, CV_32F, 0, 1);
    return cv::mean(cv::abs(along), inside)[0] > 1.15 * cv::mean(cv::abs(across), inside)[0];
}

double medianOf(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// The edge without notches: where the mask falls short of its surroundings over a short stretch,
/// there is a dark knot at the edge, not less board.
std::vector<double> withoutNotches(const std::vector<double>& edge, double sign, double width) {
    const std::size_t reach = std::max<std::size_t>(3, edge.size() / 10);
    std::vector<double> result(edge.size());
    for (std::size_t i = 0; i < edge.size(); ++i) {
        const std::size_t from = i < reach ? 0 : i - reach;
        const std::size_t to = std::min(edge.size(), i + reach + 1);
        const double usual = medianOf({edge.begin() + static_cast<std::ptrdiff_t>(from),
                                       edge.begin() + static_cast<std::ptrdiff_t>(to)});
        result[i] = sign * (edge[i] - usual) > 0.015 * width ? usual : edge[i];
    }
    return result;
}

/// Column by column; `patch` has the grain along x.
std::vector<cv::Point2d> ringOf(const cv::Mat& patch) {
    const cv::Rect box = cv::boundingRect(patch);
    std::vector<double> top;
    std::vector<double> bottom;
    for (int x = box.x; x < box.x + box.width; ++x) {
        int first = box.y + box.height;
        int last = box.y;
        for (int y = box.y; y < box.y + box.height; ++y) {
            if (patch.at<std::uint8_t>(y, x) != 0) {
                first = std::min(first, y);
                last = std::max(last, y + 1);
            }
        }
        top.push_back(first);
        bottom.push_back(last);
    }
    top = withoutNotches(top, 1, box.height);
    bottom = withoutNotches(bottom, -1, box.height);
    std::vector<cv::Point2d> ring;
    const std::size_t step = std::max<std::size_t>(1, top.size() / 64);
    const auto add = [&](const std::vector<double>& edge, std::size_t i) {
        const double x = i + 1 == edge.size() ? box.x + box.width : box.x + static_cast<double>(i);
        ring.emplace_back(x, edge[i]);
    };
    for (std::size_t i = 0; i < top.size(); i += step) {
        add(top, i);
    }
    add(top, top.size() - 1);
    add(bottom, bottom.size() - 1);
    for (std::size_t i = (bottom.size() - 1) / step * step + step; i >= step; i -= step) {
        add(bottom, i - step);
    }
    return ring;
}

} // namespace

FoundBoard wholePicture(const ImageView& picture) {
    FoundBoard found;
    const double w = picture.width;
    const double h = picture.height;
    found.outline = {{0, 0}, {w, 0}, {w, h}, {0, h}};
    if (!picture.isEmpty()) {
        const cv::Mat rgb = reduced(picture, lookedAt);
        found.upright = grainIsUpright(rgb, cv::Mat(rgb.size(), CV_8U, cv::Scalar(255)));
    }
    return found;
}

FoundBoard findBoard(const ImageView& picture) {
    if (picture.isEmpty() || std::min(picture.width, picture.height) < 32) {
        return wholePicture(picture);
    }
    const cv::Mat rgb = reduced(picture, lookedAt);
    const std::optional<cv::Mat> patch = boardPatch(rgb);
    if (!patch) {
        return wholePicture(picture);
    }
    FoundBoard found;
    found.fillsPicture = false;
    found.upright = grainIsUpright(rgb, *patch);
    const double perX = static_cast<double>(picture.width) / rgb.cols;
    const double perY = static_cast<double>(picture.height) / rgb.rows;
    for (cv::Point2d p : ringOf(found.upright ? cv::Mat(patch->t()) : *patch)) {
        if (found.upright) {
            std::swap(p.x, p.y);
        }
        found.outline.push_back({p.x * perX, p.y * perY});
    }
    if (found.upright) {
        std::reverse(found.outline.begin(), found.outline.end());
    }
    return found;
}

} // namespace stavewright::photo
