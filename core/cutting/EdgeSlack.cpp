#include "core/cutting/EdgeSlack.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/cutting/SectionShape.h"

namespace stavewright::cutting {

namespace {

/// Sections are looked at by places this far apart.
constexpr double placesApart = 25'400'000;
/// Those of a span so far.
constexpr double spanPlacesApart = 6'350'000;

} // namespace

EdgeSlack::EdgeSlack(const BoardModel& model, const Stretch& stretch, Nm longest, Nm narrowest)
    : m_near(model.nearEdge()) {
    const auto begin = static_cast<double>(stretch.from.inNanometres());
    const auto end = static_cast<double>(stretch.to.inNanometres());
    const double length = std::min(static_cast<double>(longest), end - begin);
    if (!measure(model, begin, end, length, narrowest, placesApart)) {
        return;
    }
    for (double x0 = begin; x0 < end; x0 += placesApart) {
        for (double x1 = x0 + placesApart;
             x1 < end + placesApart && x1 - x0 <= length + 2 * placesApart; x1 += placesApart) {
            addLine(x0, std::min(x1, end));
        }
    }
}

EdgeSlack::EdgeSlack(const BoardModel& model, const SectionSpan& span, Nm narrowest)
    : m_near(model.nearEdge()) {
    const auto begin = static_cast<double>(span.firstBegin);
    const auto end = static_cast<double>(span.lastEnd);
    if (!measure(model, begin, end, end - begin, narrowest, spanPlacesApart)) {
        return;
    }
    const auto lastBegin = static_cast<double>(span.lastBegin);
    for (double x0 = begin; x0 < lastBegin + spanPlacesApart; x0 += spanPlacesApart) {
        for (double x1 = static_cast<double>(span.firstEnd); x1 < end + spanPlacesApart;
             x1 += spanPlacesApart) {
            const double from = std::min(x0, lastBegin);
            const double to = std::min(x1, end);
            if (to > from) {
                addLine(from, to);
            }
        }
    }
}

bool EdgeSlack::measure(const BoardModel& model, double begin, double end, double length,
                        Nm narrowest, double apart) {
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
        return false;
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
    m_margin = 4 * apart * m_slopeRange + top * stretched + rounding;
    return true;
}

void EdgeSlack::addLine(double x0, double x1) {
    const double y0 = m_near.at(static_cast<Nm>(x0));
    const double y1 = m_near.at(static_cast<Nm>(x1));
    const double slope = (y1 - y0) / std::max(1.0, x1 - x0);
    double lift = 0;
    for (const Point& corner : m_near.corners()) {
        const auto x = static_cast<double>(corner.x.inNanometres());
        if (x > x0 && x < x1) {
            lift = std::max(lift,
                            static_cast<double>(corner.y.inNanometres()) - y0 - slope * (x - x0));
        }
    }
    m_lines.push_back({x0, x1, slope, y0 + lift - slope * x0});
}

Nm EdgeSlack::bendOf(double length) const {
    return static_cast<Nm>(std::ceil(m_slopeRange * length / 4));
}

template <class Visit>
void EdgeSlack::visitGaps(double x0, double x1, const Visit& visit) const {
    // Between the corners the gap is linear, so it is greatest and least at one of these.
    std::vector<double> places = {x0, x1};
    for (const Point& corner : m_near.corners()) {
        const auto x = static_cast<double>(corner.x.inNanometres());
        if (x > x0 && x < x1) {
            places.push_back(x);
        }
    }
    std::vector<double> near;
    near.reserve(places.size());
    for (const double x : places) {
        near.push_back(m_near.at(static_cast<Nm>(x)));
    }
    for (const Line& line : m_lines) {
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (line.from <= places[i] && places[i] <= line.to) {
                visit(line.at + line.slope * places[i] - near[i]);
            }
        }
        // And where the section itself begins or ends.
        for (const double x : {line.from, line.to}) {
            if (x > x0 && x < x1) {
                visit(line.at + line.slope * x - m_near.at(static_cast<Nm>(x)));
            }
        }
    }
}

Nm EdgeSlack::upOver(double x0, double x1) const {
    if (m_lines.empty()) {
        return 0;
    }
    double most = 0;
    visitGaps(x0, x1, [&](double gap) { most = std::max(most, gap); });
    return static_cast<Nm>(std::ceil(most + m_margin));
}

Nm EdgeSlack::sureOver(double x0, double x1) const {
    if (m_lines.empty()) {
        return 0;
    }
    double least = std::numeric_limits<double>::max();
    visitGaps(x0, x1, [&](double gap) { least = std::min(least, gap); });
    if (least == std::numeric_limits<double>::max()) {
        return 0;
    }
    return std::max<Nm>(0, static_cast<Nm>(std::floor(least - m_margin)));
}

} // namespace stavewright::cutting
