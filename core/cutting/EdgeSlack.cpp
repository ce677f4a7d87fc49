#include "core/cutting/EdgeSlack.h"

#include <algorithm>
#include <cmath>

#include "core/cutting/SectionShape.h"

namespace stavewright::cutting {

namespace {

/// Sections are looked at by places this far apart.
constexpr double placesApart = 25'400'000;

} // namespace

EdgeSlack::EdgeSlack(const BoardModel& model, const Stretch& stretch, Nm longest, Nm narrowest)
    : m_near(model.nearEdge()) {
    const auto begin = static_cast<double>(stretch.from.inNanometres());
    const auto end = static_cast<double>(stretch.to.inNanometres());
    const double length = std::min(static_cast<double>(longest), end - begin);
    double least = 0;
    double most = 0;
    bool any = false;
    const std::vector<Point>& corners = m_near.corners();
    for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
        const auto from = static_cast<double>(corners[i].x.inNanometres());
        const auto to = static_cast<double>(corners[i + 1].x.inNanometres());
        if (to <= begin || from >= end || to <= from) {
            continue;
        }
        const double slope =
            static_cast<double>((corners[i + 1].y - corners[i].y).inNanometres()) / (to - from);
        least = any ? std::min(least, slope) : slope;
        most = any ? std::max(most, slope) : slope;
        any = true;
    }
    const double steepest = std::max(std::abs(least), std::abs(most));
    if (steepest == 0) {
        return;
    }
    m_slopeRange = most - least;
    // A point at height v above the section's edge is turned along by at most v times the slope;
    // 1 / cos - 1 <= slope^2 / 2, a hair more for the rounding of frames.
    const double rounding = 4 * static_cast<double>(turnedMargin);
    const double top = static_cast<double>(model.size().widest) + rounding;
    const double stretched = 0.51 * steepest * steepest;
    m_right = static_cast<Nm>(std::ceil(top * steepest + rounding));
    m_left = static_cast<Nm>(std::ceil(length * stretched + rounding));
    // The skew of the crosscuts is counted over the section's whole width, so along its edge it has
    // less room than along x; only very narrow ones have more.
    m_longer = static_cast<Nm>(
        std::ceil(std::max(0.0, length * stretched - static_cast<double>(narrowest) * steepest)));

    // Moving an end of the chord by a place moves the chord, and the line above it, by at most the
    // slopes' range; both ends, and twice for the lift.
    m_margin = 4 * placesApart * m_slopeRange + top * stretched + rounding;
    for (double x0 = begin; x0 < end; x0 += placesApart) {
        for (double x1 = x0 + placesApart;
             x1 < end + placesApart && x1 - x0 <= length + 2 * placesApart; x1 += placesApart) {
            const double to = std::min(x1, end);
            const double y0 = m_near.at(static_cast<Nm>(x0));
            const double y1 = m_near.at(static_cast<Nm>(to));
            const double slope = (y1 - y0) / std::max(1.0, to - x0);
            double lift = 0;
            for (const Point& corner : corners) {
                const auto x = static_cast<double>(corner.x.inNanometres());
                if (x > x0 && x < to) {
                    lift = std::max(lift, static_cast<double>(corner.y.inNanometres()) - y0 -
                                              slope * (x - x0));
                }
            }
            m_lines.push_back({x0, to, slope, y0 + lift - slope * x0});
        }
    }
}

Nm EdgeSlack::bendOf(double length) const {
    return static_cast<Nm>(std::ceil(m_slopeRange * length / 4));
}

Nm EdgeSlack::upOver(double x0, double x1) const {
    if (m_lines.empty()) {
        return 0;
    }
    // Between the corners the gap is linear, so it is greatest at one of these.
    std::vector<double> places = {x0, x1};
    for (const Point& corner : m_near.corners()) {
        const auto x = static_cast<double>(corner.x.inNanometres());
        if (x > x0 && x < x1) {
            places.push_back(x);
        }
    }
    double most = 0;
    for (const double x : places) {
        const double near = m_near.at(static_cast<Nm>(x));
        for (const Line& line : m_lines) {
            if (line.from <= x && x <= line.to) {
                most = std::max(most, line.at + line.slope * x - near);
            }
        }
    }
    return static_cast<Nm>(std::ceil(most + m_margin));
}

} // namespace stavewright::cutting
