#include "core/photo/SuggestedMarks.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/photo/CrackSearch.h"
#include "core/photo/KnotModel.h"
#include "core/photo/KnotShape.h"

namespace stavewright::photo {

namespace {

/// A crack that runs through a knot is part of the knot.
bool mostlyIn(const FoundCrack& crack, const std::vector<FoundKnot>& knots) {
    const auto inside = std::count_if(crack.ring.begin(), crack.ring.end(), [&](const Pixels& p) {
        return std::any_of(knots.begin(), knots.end(), [&](const FoundKnot& knot) {
            const double roomX = 0.3 * (knot.x1 - knot.x0);
            const double roomY = 0.3 * (knot.y1 - knot.y0);
            return p.x > knot.x0 - roomX && p.x < knot.x1 + roomX && p.y > knot.y0 - roomY &&
                   p.y < knot.y1 + roomY;
        });
    });
    return static_cast<std::size_t>(inside) * 2 > crack.ring.size();
}

std::vector<Pixels> inPicture(const GrainGrid& grid, const std::vector<Pixels>& ring) {
    std::vector<Pixels> outline;
    for (const Pixels& p : ring) {
        const Pixels at = grid.toPicture(p.x, p.y);
        if (outline.empty() || !(outline.back() == at)) {
            outline.push_back(at);
        }
    }
    while (outline.size() > 1 && outline.front() == outline.back()) {
        outline.pop_back();
    }
    return outline;
}

} // namespace

Suggestions suggestMarks(const ImageView& picture, const SuggestOptions& options) {
    Suggestions suggestions;
    const FoundBoard board = options.boardFillsPicture ? wholePicture(picture) : findBoard(picture);
    suggestions.board = board.outline;
    suggestions.boardFound = !board.fillsPicture;
    if (picture.isEmpty() || std::min(picture.width, picture.height) < 16) {
        return suggestions;
    }
    const GrainGrid grid(picture, board);
    const KnotModel& model = trainedKnotModel();
    const std::vector<FoundKnot> knots = searchKnots(grid, model, options.leastConfidence);
    for (const FoundKnot& knot : knots) {
        const KnotShape shape = shapeOf(grid, knot);
        suggestions.marks.push_back(
            {shape.kind, model.confidence(knot.score), inPicture(grid, shape.ring)});
    }
    for (const FoundCrack& crack : searchCracks(grid)) {
        if (crack.confidence >= options.leastConfidence && !mostlyIn(crack, knots)) {
            suggestions.marks.push_back(
                {DefectKind::Check, crack.confidence, inPicture(grid, crack.ring)});
        }
    }
    std::stable_sort(
        suggestions.marks.begin(), suggestions.marks.end(),
        [](const SuggestedMark& a, const SuggestedMark& b) { return a.confidence > b.confidence; });
    return suggestions;
}

Polygon outlineOnBoard(const std::vector<Pixels>& outline, const PhotoMap& map) {
    Polygon polygon;
    for (const Pixels& p : outline) {
        const std::optional<Point> at = map.toBoard(p);
        if (!at) {
            return {};
        }
        polygon.push_back(*at);
    }
    return normalised(std::move(polygon));
}

} // namespace stavewright::photo
