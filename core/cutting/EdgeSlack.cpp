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

/// Of the points (left, right) those of which one is least in every weighing of the two.
template <class Point>
std::vector<Point> lowerLeft(std::vector<Point>& points) {
    std::vector<Point> hull;
    if (points.empty()) {
        return hull;
    }
    const auto isLower = [](const Point& a, const Point& b) {
        return a.left != b.left ? a.left < b.left : a.right < b.right;
    };
    // Most lie on the far side of the straight line between the two extreme ones.
    const Point first = *std::min_element(points.begin(), points.end(), isLower);
    const Point last =
        *std::min_element(points.begin(), points.end(), [](const Point& a, const Point& b) {
            return a.right != b.right ? a.right < b.right : a.left < b.left;
        });
    const auto turns = [](const Point& a, const Point& b, const Point& c) {
        return (b.left - a.left) * (c.right - a.right) - (b.right - a.right) * (c.left - a.left) >
               0;
    };
    const auto end = std::partition(points.begin(), points.end(), [&](const Point& point) {
        return point.left < last.left && turns(first, point, last);
    });
    std::sort(points.begin(), end, isLower);
    hull.push_back(first);
    const auto add = [&](const Point& point) {
        while (hull.size() > 1 && !turns(hull[hull.size() - 2], hull.back(), point)) {
            hull.pop_back();
        }
        hull.push_back(point);
    };
    std::for_each(points.begin(), end, add);
    if (last.right < first.right) {
        add(last);
    }
    return hull;
}

} // namespace

EdgeSlack::EdgeSlack(const BoardModel& model, const Stretch& stretch, Nm longest, Nm narrowest)
    : m_near(model.nearEdge()) {
    const auto begin = static_cast<double>(stretch.from.inNanometres());
    const auto end = static_cast<double>(stretch.to.inNanometres());
    const double length = std::min(static_cast<double>(longest), end - begin);
    if (!measure(model, begin, end, length, narrowest, placesApart)) {
        return;
    }
    std::vector<Line> lines;
    for (double x0 = begin; x0 < end; x0 += placesApart) {
        for (double x1 = x0 + placesApart;
             x1 < end + placesApart && x1 - x0 <= length + 2 * placesApart; x1 += placesApart) {
            lines.push_back(lineOf(x0, std::min(x1, end)));
        }
    }
    findSpans(lines);
}

EdgeSlack::EdgeSlack(const BoardModel& model, const SectionSpan& span, Nm narrowest)
    : m_near(model.nearEdge()) {
    const auto begin = static_cast<double>(span.firstBegin);
    const auto end = static_cast<double>(span.lastEnd);
    if (!measure(model, begin, end, end - begin, narrowest, spanPlacesApart)) {
        return;
    }
    const auto lastBegin = static_cast<double>(span.lastBegin);
    std::vector<Line> lines;
    for (double x0 = begin; x0 < lastBegin + spanPlacesApart; x0 += spanPlacesApart) {
        for (double x1 = static_cast<double>(span.firstEnd); x1 < end + spanPlacesApart;
             x1 += spanPlacesApart) {
            const double from = std::min(x0, lastBegin);
            const double to = std::min(x1, end);
            if (to > from) {
                lines.push_back(lineOf(from, to));
            }
        }
    }
    findSpans(lines);
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

EdgeSlack::Line EdgeSlack::lineOf(double x0, double x1) const {
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
    return {x0, x1, slope, y0 + lift - slope * x0};
}

void EdgeSlack::findSpans(const std::vector<Line>& lines) {
    std::vector<double> places;
    for (const Line& line : lines) {
        places.insert(places.end(), {line.from, line.to});
    }
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    std::vector<Ends> lowest;
    std::vector<Ends> highest;
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
        Span span{places[i], places[i + 1], {}, {}};
        lowest.clear();
        highest.clear();
        for (const Line& line : lines) {
            if (line.from <= span.from && span.to <= line.to) {
                const Ends ends{line.at + line.slope * span.from, line.at + line.slope * span.to};
                lowest.push_back(ends);
                highest.push_back({-ends.left, -ends.right});
            }
        }
        span.lowest = lowerLeft(lowest);
        span.highest = lowerLeft(highest);
        for (Ends& ends : span.highest) {
            ends = {-ends.left, -ends.right};
        }
        m_spans.push_back(std::move(span));
    }
}

double EdgeSlack::bendOf(double length) const { return std::ceil(m_slopeRange * length / 4); }

std::vector<EdgeSlack::Span>::const_iterator EdgeSlack::spanAt(double x0) const {
    return std::partition_point(m_spans.begin(), m_spans.end(),
                                [&](const Span& span) { return span.to < x0; });
}

EdgeSlack::Lines EdgeSlack::drawnOver(double x0, double x1) const {
    // The highest of some straight lines bends up: the line between its ends is above it.
    const Ends near{m_near.at(static_cast<Nm>(x0)), m_near.at(static_cast<Nm>(x1))};
    constexpr double most = std::numeric_limits<double>::max();
    Lines drawn{{most, most}, {0, 0}};
    for (auto span = spanAt(x0); span != m_spans.end() && span->from <= x1; ++span) {
        const double length = span->to - span->from;
        const auto draw = [&](const Ends& line) {
            return Ends{line.at((x0 - span->from) / length) - near.left,
                        line.at((x1 - span->from) / length) - near.right};
        };
        for (const Ends& line : span->highest) {
            const Ends ends = draw(line);
            drawn.highest.left = std::max(drawn.highest.left, ends.left);
            drawn.highest.right = std::max(drawn.highest.right, ends.right);
        }
        for (const Ends& line : span->lowest) {
            const Ends ends = draw(line);
            drawn.lowest.left = std::min(drawn.lowest.left, ends.left);
            drawn.lowest.right = std::min(drawn.lowest.right, ends.right);
        }
    }
    if (drawn.lowest.left == most) {
        drawn.lowest = {}; // no section is known to be there
    }
    drawn.highest = {drawn.highest.left + m_margin, drawn.highest.right + m_margin};
    drawn.lowest = {drawn.lowest.left - m_margin, drawn.lowest.right - m_margin};
    return drawn;
}

EdgeSlack::Lines EdgeSlack::over(double x0, double x1) const {
    if (m_spans.empty()) {
        return {};
    }
    const std::vector<Point>& corners = m_near.corners();
    const bool bends = std::any_of(corners.begin(), corners.end(), [&](const Point& corner) {
        const auto x = static_cast<double>(corner.x.inNanometres());
        return x > x0 && x < x1;
    });
    const double bend = bends ? bendOf(x1 - x0) : 0;
    const double highest = static_cast<double>(upOver(x0, x1)) + bend;
    const double lowest = static_cast<double>(sureOver(x0, x1)) - bend;
    Lines lines{{lowest, lowest}, {highest, highest}};
    if (!bends) {
        const Lines drawn = drawnOver(x0, x1);
        if (std::max(drawn.highest.left, drawn.highest.right) <= highest) {
            lines.highest = drawn.highest;
        }
        if (std::min(drawn.lowest.left, drawn.lowest.right) >= lowest) {
            lines.lowest = drawn.lowest;
        }
    }
    return lines;
}

template <class Visit>
void EdgeSlack::visitPlaces(double x0, double x1, const Visit& visit) const {
    // Between the corners the gap under a line is linear, so it is greatest and least at one of
    // these, or where lines begin and end.
    const std::vector<Point>& corners = m_near.corners();
    for (auto span = spanAt(x0); span != m_spans.end() && span->from <= x1; ++span) {
        const double from = std::max(x0, span->from);
        const double to = std::min(x1, span->to);
        visit(*span, from);
        visit(*span, to);
        const auto corner =
            std::partition_point(corners.begin(), corners.end(), [&](const Point& other) {
                return static_cast<double>(other.x.inNanometres()) <= from;
            });
        for (auto at = corner; at != corners.end(); ++at) {
            const auto x = static_cast<double>(at->x.inNanometres());
            if (x >= to) {
                break;
            }
            visit(*span, x);
        }
    }
}

Nm EdgeSlack::upOver(double x0, double x1) const {
    if (m_spans.empty()) {
        return 0;
    }
    double most = 0;
    visitPlaces(x0, x1, [&](const Span& span, double x) {
        const double part = (x - span.from) / (span.to - span.from);
        const double near = m_near.at(static_cast<Nm>(x));
        for (const Ends& line : span.highest) {
            most = std::max(most, line.at(part) - near);
        }
    });
    return static_cast<Nm>(std::ceil(most + m_margin));
}

Nm EdgeSlack::sureOver(double x0, double x1) const {
    if (m_spans.empty()) {
        return 0;
    }
    double least = std::numeric_limits<double>::max();
    visitPlaces(x0, x1, [&](const Span& span, double x) {
        const double part = (x - span.from) / (span.to - span.from);
        const double near = m_near.at(static_cast<Nm>(x));
        for (const Ends& line : span.lowest) {
            least = std::min(least, line.at(part) - near);
        }
    });
    if (least == std::numeric_limits<double>::max()) {
        return 0;
    }
    return std::max<Nm>(0, static_cast<Nm>(std::floor(least - m_margin)));
}

} // namespace stavewright::cutting
