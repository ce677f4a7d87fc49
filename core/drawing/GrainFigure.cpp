#include "core/drawing/GrainFigure.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

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
    // Knots push lines over the edges, so that some begin beyond them.
    constexpr double beyond = 0.3;
    const auto lines = static_cast<std::uint64_t>((1 + 2 * beyond) * extent.width() / apart) + 1;
    for (std::uint64_t i = 0; i < lines; ++i) {
        const double even = static_cast<double>(i) + 0.5 + 0.6 * (scatter(seed, i) - 0.5);
        const double height = -beyond + (1 + 2 * beyond) * even / static_cast<double>(lines);
        for (const Curve& part : withoutKnots(insideParts(flow.line(height), outline), knots)) {
            result.push_back(pointsOf(part));
        }
    }
    return result;
}

} // namespace stavewright::drawing
