#include "core/drawing/GrainFlow.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "core/drawing/OutlineShape.h"
#include "core/drawing/Scatter.h"

namespace stavewright::drawing {

namespace {

constexpr int stations = 33; ///< where the edges are measured for the fit
constexpr double leastKnotShare = 1e-3;
/// A knot wider than this share of the board does not push the grain further (a spike knot).
constexpr double mostKnotShare = 0.3;
/// Grain keeps this much off the ellipse round a knot.
constexpr double knotMargin = 1.06;
/// How far the push reaches, in half widths of the knot. Above 1 keeps the lines in order.
constexpr double reach = 2.2;
/// How far along the grain a knot is felt, in its half lengths: beyond, its push is below a hundred
/// thousandth of its size.
constexpr double influence = 5;

struct Sample {
    double u = 0;
    double y = 0;
};

/// Least squares parabola through the samples by Cramer's rule on the normal equations.
std::array<double, 3> parabolaThrough(const std::vector<Sample>& samples) {
    std::array<double, 5> moments{};
    std::array<double, 3> sums{};
    for (const Sample& sample : samples) {
        double power = 1;
        for (std::size_t k = 0; k < moments.size(); ++k) {
            moments[k] += power;
            if (k < sums.size()) {
                sums[k] += power * sample.y;
            }
            power *= sample.u;
        }
    }
    const auto determinant = [](const std::array<std::array<double, 3>, 3>& m) {
        return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
               m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
               m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
    };
    std::array<std::array<double, 3>, 3> matrix{};
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            matrix[row][column] = moments[row + column];
        }
    }
    const double whole = determinant(matrix);
    std::array<double, 3> result{};
    if (std::abs(whole) < 1e-9) {
        result[0] = moments[0] == 0 ? 0 : sums[0] / moments[0];
        return result;
    }
    for (std::size_t column = 0; column < 3; ++column) {
        auto replaced = matrix;
        for (std::size_t row = 0; row < 3; ++row) {
            replaced[row][column] = sums[row];
        }
        result[column] = determinant(replaced) / whole;
    }
    return result;
}

/// Pushes a height away from a knot whose half height here is `half`: increasing in the height,
/// never less than `half` above the knot's middle when the line passes above it, and fading with
/// distance.
double pushed(double height, double middle, double half, bool above) {
    const double way = above ? height - middle : middle - height;
    const double scale = reach * half;
    const double off =
        way >= 0 ? way + half * std::exp(-way / scale) : half * std::exp(way / scale);
    return above ? middle + off : middle - off;
}

} // namespace

GrainFlow::GrainFlow(const Curve& outline, const std::vector<Curve>& knots, std::uint64_t seed) {
    const Extent extent = extentOf(outline);
    m_lowX = extent.lowX;
    m_highX = extent.highX;
    fitEdges(outline);
    // Two long waves; their sizes together stay far below what could turn the order of lines round.
    for (std::uint64_t i = 0; i < 2; ++i) {
        const std::uint64_t from = 1'000'000 + 3 * i;
        m_waves.push_back({0.012 + 0.02 * scatter(seed, from),
                           (1.2 + 2.2 * scatter(seed, from + 1) + 2.0 * static_cast<double>(i)),
                           2 * std::numbers::pi * scatter(seed, from + 2)});
    }
    placeKnots(knots);
    chooseColumns(outline);
}

void GrainFlow::fitEdges(const Curve& outline) {
    std::array<std::optional<Run>, stations> runs;
    double widest = 0;
    for (int i = 0; i < stations; ++i) {
        auto& run = runs[static_cast<std::size_t>(i)];
        run = longestRunAt(outline, m_lowX + (m_highX - m_lowX) * (i + 0.5) / stations);
        widest = std::max(widest, run ? run->half() : 0.0);
    }
    std::vector<Sample> nearEdge;
    std::vector<Sample> farEdge;
    for (int i = 0; i < stations; ++i) {
        const auto& run = runs[static_cast<std::size_t>(i)];
        // Slanted ends and deep bites say nothing about how the grain runs.
        if (run && run->half() >= widest / 2) {
            const double u = -1 + 2 * (i + 0.5) / stations;
            nearEdge.push_back({u, run->low});
            farEdge.push_back({u, run->high});
        }
    }
    const auto nearFit = parabolaThrough(nearEdge);
    const auto farFit = parabolaThrough(farEdge);
    m_near = {nearFit[0], nearFit[1], nearFit[2]};
    m_far = {farFit[0], farFit[1], farFit[2]};
    for (int i = 0; i <= stations; ++i) {
        const double u = -1 + 2.0 * i / stations;
        if (m_far.at(u) - m_near.at(u) < widest / 4) { // an outline that no two parabolas follow
            const Extent extent = extentOf(outline);
            m_near = {extent.lowY, 0, 0};
            m_far = {extent.highY, 0, 0};
            return;
        }
    }
}

void GrainFlow::placeKnots(const std::vector<Curve>& knots) {
    for (const Curve& outline : knots) {
        const Extent extent = extentOf(outline);
        const Spot middle{(extent.lowX + extent.highX) / 2, (extent.lowY + extent.highY) / 2};
        const double a = std::max(extent.length() / 2, 1.0);
        const double b = std::max(extent.width() / 2, 1.0);
        double round = 1; // scale of the ellipse in the box that holds the whole outline
        for (const Spot& corner : outline) {
            round =
                std::max(round, std::hypot((corner.x - middle.x) / a, (corner.y - middle.y) / b));
        }
        const double u = alongOf(middle.x);
        const double width = m_far.at(u) - m_near.at(u);
        const double half =
            std::clamp(knotMargin * round * b / width, leastKnotShare, mostKnotShare);
        m_knots.push_back({middle.x, heightOf(middle), knotMargin * round * a, half});
    }
    std::stable_sort(m_knots.begin(), m_knots.end(),
                     [](const Knot& a, const Knot& b) { return a.half < b.half; });
}

void GrainFlow::chooseColumns(const Curve& outline) {
    constexpr int evenly = 40;
    for (int i = 0; i <= evenly; ++i) {
        m_columns.push_back(m_lowX + (m_highX - m_lowX) * i / evenly);
    }
    // Close where lines bend: round knots out to three half lengths.
    for (const Knot& knot : m_knots) {
        for (int i = -12; i <= 12; ++i) {
            m_columns.push_back(knot.x + knot.halfLength * i / 4);
        }
    }
    for (const Spot& corner : outline) {
        m_columns.push_back(corner.x);
    }
    std::sort(m_columns.begin(), m_columns.end());
    const double closest = (m_highX - m_lowX) * 1e-4;
    std::vector<double> apart;
    for (const double x : m_columns) {
        if (x >= m_lowX && x <= m_highX && (apart.empty() || x - apart.back() > closest)) {
            apart.push_back(x);
        }
    }
    if (apart.back() < m_highX) {
        apart.push_back(m_highX);
    }
    m_columns = std::move(apart);
}

double GrainFlow::alongOf(double x) const { return -1 + 2 * (x - m_lowX) / (m_highX - m_lowX); }

double GrainFlow::heightOf(const Spot& spot) const {
    const double u = alongOf(spot.x);
    return (spot.y - m_near.at(u)) / (m_far.at(u) - m_near.at(u));
}

double GrainFlow::waved(double height, double u) const {
    double result = height;
    for (const Wave& wave : m_waves) {
        result += wave.size * std::sin(wave.turns * u + wave.phase + 1.7 * height);
    }
    return result;
}

Curve GrainFlow::line(double height) const {
    // On which side a line passes each knot is settled once for the whole line.
    std::vector<bool> above;
    above.reserve(m_knots.size());
    for (const Knot& knot : m_knots) {
        above.push_back(waved(height, alongOf(knot.x)) > knot.height);
    }
    Curve line;
    line.reserve(m_columns.size());
    for (const double x : m_columns) {
        const double u = alongOf(x);
        double here = waved(height, u);
        for (std::size_t i = 0; i < m_knots.size(); ++i) {
            const Knot& knot = m_knots[i];
            // exp(-t^2/2) lies above the ellipse sqrt(1 - t^2) all along it.
            const double t = (x - knot.x) / knot.halfLength;
            if (std::abs(t) < influence) {
                here = pushed(here, knot.height, knot.half * std::exp(-t * t / 2), above[i]);
            }
        }
        line.push_back({x, m_near.at(u) + here * (m_far.at(u) - m_near.at(u))});
    }
    return line;
}

} // namespace stavewright::drawing
