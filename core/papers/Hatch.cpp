#include "core/papers/Hatch.h"

#include <algorithm>
#include <cassert>
#include <limits>

namespace stavewright::papers {

namespace {

// Along a hatch line y - x = c is constant and x runs. Nanometres in a double are exact to 2^53,
// far beyond a sheet of paper, and hatching is only looked at.
struct Run {
    double from = 0;
    double to = 0;
};

double xOf(const Point& point) { return static_cast<double>(point.x.inNanometres()); }
double yOf(const Point& point) { return static_cast<double>(point.y.inNanometres()); }

/// Where the line y = x + c is inside the polygon, by the even-odd rule.
std::vector<Run> insideRuns(const Polygon& polygon, double c) {
    std::vector<double> crossings;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point& a = polygon[i];
        const Point& b = polygon[(i + 1) % polygon.size()];
        const double sideA = yOf(a) - xOf(a) - c;
        const double sideB = yOf(b) - xOf(b) - c;
        if ((sideA < 0) != (sideB < 0)) {
            const double share = sideA / (sideA - sideB);
            crossings.push_back(xOf(a) + share * (xOf(b) - xOf(a)));
        }
    }
    std::sort(crossings.begin(), crossings.end());
    std::vector<Run> runs;
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
        runs.push_back({crossings[i], crossings[i + 1]});
    }
    return runs;
}

std::vector<Run> without(const std::vector<Run>& runs, const std::vector<Run>& holes) {
    std::vector<Run> left = runs;
    for (const Run& hole : holes) {
        std::vector<Run> next;
        for (const Run& run : left) {
            if (hole.to <= run.from || run.to <= hole.from) {
                next.push_back(run);
                continue;
            }
            if (run.from < hole.from) {
                next.push_back({run.from, hole.from});
            }
            if (hole.to < run.to) {
                next.push_back({hole.to, run.to});
            }
        }
        left = std::move(next);
    }
    return left;
}

Point pointAt(double x, double c) {
    return {Length::nanometres(static_cast<std::int64_t>(x)),
            Length::nanometres(static_cast<std::int64_t>(x + c))};
}

} // namespace

std::vector<std::pair<Point, Point>> hatchLines(const Polygon& outline,
                                                const std::vector<Polygon>& holes, Length spacing) {
    assert(spacing > Length());
    double least = std::numeric_limits<double>::max();
    double most = std::numeric_limits<double>::lowest();
    for (const Point& point : outline) {
        least = std::min(least, yOf(point) - xOf(point));
        most = std::max(most, yOf(point) - xOf(point));
    }
    const double step = static_cast<double>(spacing.inNanometres()) * 1.4142135623730951;
    constexpr double shortest = 200'000; // 0.2 mm: shorter pieces are specks
    std::vector<std::pair<Point, Point>> lines;
    for (double c = least + step / 2; c < most; c += step) {
        std::vector<Run> holeRuns;
        for (const Polygon& hole : holes) {
            const std::vector<Run> runs = insideRuns(hole, c);
            holeRuns.insert(holeRuns.end(), runs.begin(), runs.end());
        }
        for (const Run& run : without(insideRuns(outline, c), holeRuns)) {
            if (run.to - run.from > shortest) {
                lines.emplace_back(pointAt(run.from, c), pointAt(run.to, c));
            }
        }
    }
    return lines;
}

} // namespace stavewright::papers
