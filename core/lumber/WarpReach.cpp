#include "core/lumber/WarpReach.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

/// Enough to find the good places of a board with a few kinks.
constexpr int placesTried = 24;

Length straightWidthAt(const Board& board, Stretch along) {
    const auto low = acrossAt(board.outline, along.from);
    const auto high = acrossAt(board.outline, along.to);
    if (!low || !high) {
        return {};
    }
    const Frame frame{{along.from, low->from}, along.length(), high->from - low->from};
    const Polygon turned = toLocal(frame, board.outline);
    const Length end = toLocal(frame, {along.to, high->from}).x;
    const auto strip = clearAcross(turned, {Length(), end});
    return strip ? strip->length() : Length();
}

/// At the end where the warp is not, or anywhere.
Length bestThickness(const Board& board, Length piece, Length cleaning) {
    const Length length = lengthOf(board);
    const Length width = widthOf(board);
    return std::max(reachableThickness(board, {Length(), piece}, width, cleaning),
                    reachableThickness(board, {length - piece, length}, width, cleaning));
}

} // namespace

Length straightWidth(const Board& board, Length piece) {
    const Rect box = boundingBox(board.outline);
    Stretch ends{box.x0 + board.trimAtDatum, box.x1 - board.trimAtFar};
    if (piece > ends.length()) {
        ends = {box.x0, box.x1}; // the whole board, raw ends and all
    }
    const Length room = ends.length() - piece;
    Length best;
    for (int i = 0; i <= placesTried; ++i) {
        const Length from = ends.from + room * i / placesTried;
        best = std::max(best, straightWidthAt(board, {from, from + piece}));
        if (room == Length()) {
            break;
        }
    }
    return best;
}

std::vector<ThicknessStep> thicknessSteps(const Board& board, Length cleaning, Length thicknessStep,
                                          Length lengthStep) {
    const Length length = lengthOf(board);
    const Length whole = bestThickness(board, length, cleaning);
    const Length flat = board.thinnest - cleaning;
    std::vector<ThicknessStep> steps;
    Length thickness = whole - whole % thicknessStep;
    if (whole < Length()) {
        thickness = {};
    }
    for (thickness += thicknessStep; thickness <= flat; thickness += thicknessStep) {
        // The longer, the thinner: halve the doubt until it is one step.
        std::int64_t good = 0;
        std::int64_t bad = length / lengthStep + 1;
        while (bad - good > 1) {
            const std::int64_t middle = (good + bad) / 2;
            const Length piece = std::min(lengthStep * middle, length);
            (bestThickness(board, piece, cleaning) >= thickness ? good : bad) = middle;
        }
        if (good > 0) {
            steps.push_back({thickness, lengthStep * good});
        }
    }
    constexpr std::size_t most = 4;
    if (steps.size() > most) {
        steps.erase(steps.begin(), steps.end() - most);
    }
    return steps;
}

std::vector<ReachRow> warpReach(const Board& board, const std::vector<Length>& pieces,
                                Length cleaning) {
    const Length length = lengthOf(board);
    const Length width = widthOf(board);
    std::vector<ReachRow> rows;
    const auto add = [&](Length piece) {
        const bool atFar = board.warp.where == Warp::Where::MostlyAtFarEnd;
        const Stretch along = atFar ? Stretch{length - piece, length} : Stretch{Length(), piece};
        rows.push_back({piece, reachableThickness(board, along, width, cleaning),
                        reachableThickness(board, along, width / 2, cleaning),
                        straightWidth(board, piece)});
    };
    for (const Length piece : pieces) {
        if (piece < length) {
            add(piece);
        }
    }
    add(length);
    return rows;
}

} // namespace stavewright
