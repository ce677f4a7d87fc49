#include "core/drawing/GrainFigure.h"

#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

#include "core/drawing/Clip.h"
#include "core/drawing/GrainFlow.h"
#include "core/drawing/OutlineShape.h"
#include "core/drawing/Scatter.h"

namespace stavewright::drawing {

namespace {

/// Lines at most, however fine the spacing that is asked for; keeps a rack of boards quick to draw.
constexpr double mostLines = 240;

const FaceMark* markOn(const Defect& defect, BoardFace face) {
    const auto& here = face == BoardFace::A ? defect.onA : defect.onB;
    const auto& there = face == BoardFace::A ? defect.onB : defect.onA;
    if (here) {
        return &*here;
    }
    return defect.through && there ? &*there : nullptr;
}

bool isKnot(DefectKind kind) {
    return kind == DefectKind::SoundKnot || kind == DefectKind::LooseKnot ||
           kind == DefectKind::KnotHole;
}

std::vector<Curve> knotsOn(const Board& board, BoardFace face) {
    std::vector<Curve> knots;
    for (const Defect& defect : board.defects) {
        const FaceMark* mark = isKnot(defect.kind) ? markOn(defect, face) : nullptr;
        if (mark != nullptr && mark->outline.size() >= 3) {
            knots.push_back(curveOf(mark->outline));
        }
    }
    return knots;
}

bool mayMeet(const Extent& a, const Extent& b) {
    return a.lowX <= b.highX && b.lowX <= a.highX && a.lowY <= b.highY && b.lowY <= a.highY;
}

/// Takes lines in the order of their heights and leaves out what would lie too close to the line
/// before, as a draughtsman does where grain is pressed together. All lines have the same columns.
class Thinning {
  public:
    explicit Thinning(double leastGap)
        : m_leastGap(leastGap) {}

    std::vector<Curve> kept(const Curve& line) {
        m_highest.resize(line.size(), -std::numeric_limits<double>::max());
        std::vector<Curve> parts;
        bool broken = true;
        for (std::size_t i = 0; i < line.size(); ++i) {
            if (line[i].y - m_highest[i] < m_leastGap) {
                broken = true;
                continue;
            }
            m_highest[i] = line[i].y;
            if (broken) {
                parts.emplace_back();
            }
            parts.back().push_back(line[i]);
            broken = false;
        }
        return parts;
    }

  private:
    double m_leastGap;
    std::vector<double> m_highest; ///< by column
};

/// Leaves out points that lie within `tolerance` (in y) of the straight line between those that
/// stay.
Curve simplified(const Curve& line, double tolerance) {
    Curve result;
    double leastSlope = 0;
    double mostSlope = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (!result.empty() && i + 1 < line.size()) {
            const double run = line[i + 1].x - result.back().x;
            const double next = (line[i + 1].y - result.back().y) / run;
            const double here = line[i].x - result.back().x;
            leastSlope = std::max(leastSlope, (line[i].y - tolerance - result.back().y) / here);
            mostSlope = std::min(mostSlope, (line[i].y + tolerance - result.back().y) / here);
            if (next >= leastSlope && next <= mostSlope) {
                continue;
            }
        }
        result.push_back(line[i]);
        leastSlope = -std::numeric_limits<double>::max();
        mostSlope = std::numeric_limits<double>::max();
    }
    return result;
}

/// Where the flow alone does not keep off a knot (two knots in one place), the line stops at its
/// edge.
std::vector<Curve> withoutKnots(std::vector<Curve> lines, const std::vector<Curve>& knots) {
    for (const Curve& knot : knots) {
        const Extent extent = extentOf(knot);
        std::vector<Curve> kept;
        for (Curve& line : lines) {
            if (!mayMeet(extentOf(line), extent)) {
                kept.push_back(std::move(line));
                continue;
            }
            for (Curve& part : outsideParts(line, knot)) {
                kept.push_back(std::move(part));
            }
        }
        lines = std::move(kept);
    }
    return lines;
}

} // namespace

std::vector<std::vector<Point>> grainLines(const Board& board, BoardFace face, Length spacing) {
    std::vector<std::vector<Point>> result;
    const Curve outline = curveOf(board.outline);
    const Extent extent = extentOf(outline);
    if (outline.size() < 3 || extent.length() <= 0 || extent.width() <= 0) {
        return result;
    }
    const std::vector<Curve> knots = knotsOn(board, face);
    const std::uint64_t seed =
        mixed(static_cast<std::uint64_t>(board.id.value) * 2 + (face == BoardFace::A ? 0 : 1));
    const GrainFlow flow(outline, knots, seed);

    const double asked = static_cast<double>(spacing.inNanometres());
    const double apart = std::max(asked, extent.width() / mostLines);
    const double leastGap = apart / 8;
    Thinning thinning(leastGap);
    // Knots push lines over the edges, so that some begin beyond them.
    constexpr double beyond = 0.3;
    const auto lines = static_cast<std::uint64_t>((1 + 2 * beyond) * extent.width() / apart) + 1;
    for (std::uint64_t i = 0; i < lines; ++i) {
        const double even = static_cast<double>(i) + 0.5 + 0.6 * (scatter(seed, i) - 0.5);
        const double height = -beyond + (1 + 2 * beyond) * even / static_cast<double>(lines);
        for (const Curve& kept : thinning.kept(flow.line(height))) {
            const Curve line = simplified(kept, leastGap / 4);
            for (const Curve& part : withoutKnots(insideParts(line, outline), knots)) {
                result.push_back(pointsOf(part));
            }
        }
    }
    return result;
}

} // namespace stavewright::drawing
