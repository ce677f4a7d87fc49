#include "core/lumber/Defect.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

struct KindWords {
    std::string_view name;
    char letter;
};

/// By DefectKind, in the order of the enumeration.
constexpr std::array<KindWords, allDefectKinds.size()> kindWords = {{{"sound knot", 'S'},
                                                                     {"loose knot", 'L'},
                                                                     {"knot hole", 'O'},
                                                                     {"check", 'C'},
                                                                     {"split", 'T'},
                                                                     {"shake", 'K'},
                                                                     {"wane", 'W'},
                                                                     {"pith", 'P'},
                                                                     {"bark pocket", 'B'},
                                                                     {"sapwood", 'A'},
                                                                     {"stain", 'N'},
                                                                     {"worm holes", 'Y'},
                                                                     {"other", 'X'}}};

const KindWords& wordsOf(DefectKind kind) { return kindWords[static_cast<std::size_t>(kind)]; }

Length sizeOf(const FaceMark& mark) {
    if (mark.form) {
        return std::max(mark.form->along, mark.form->across);
    }
    const Rect box = boundingBox(mark.outline);
    return std::max(box.length(), box.width());
}

/// from + (to - from) * part / whole, to the nearest nanometre, halves away from zero.
Length between(Length from, Length to, Length part, Length whole) {
    const Int128 share = ((to - from) * part).inSquareNanometres();
    const Int128 half = whole.inNanometres() / 2;
    const Int128 shift = share < 0 ? -half : half;
    return from +
           Length::nanometres(static_cast<std::int64_t>((share + shift) / whole.inNanometres()));
}

/// Where the ring's lowest corner stands, the leftmost of several.
std::size_t lowestOf(const Polygon& ring) {
    std::size_t lowest = 0;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        if (ring[i].y < ring[lowest].y ||
            (ring[i].y == ring[lowest].y && ring[i].x < ring[lowest].x)) {
            lowest = i;
        }
    }
    return lowest;
}

/// Positive when the second edge turns left from the first.
Int128 turn(const Point& from, const Point& to, const Point& otherFrom, const Point& otherTo) {
    return ((to.x - from.x) * (otherTo.y - otherFrom.y)).inSquareNanometres() -
           ((to.y - from.y) * (otherTo.x - otherFrom.x)).inSquareNanometres();
}

/// The slice of the skewed cone between two convex marks: every point divides a line from the one
/// to the other in the ratio of the depth. Its corners come from pairs of their corners that are
/// outermost in the same direction, which walking round both at once meets one after the other.
Polygon sliceBetween(const Polygon& onA, const Polygon& onB, Length depth, Length thickness) {
    const Polygon hullA = convexHull(onA);
    const Polygon hullB = convexHull(onB);
    const std::size_t firstA = lowestOf(hullA);
    const std::size_t firstB = lowestOf(hullB);
    const auto cornerOf = [](const Polygon& hull, std::size_t first,
                             std::size_t step) -> const Point& {
        return hull[(first + step) % hull.size()];
    };
    Polygon corners;
    corners.reserve(hullA.size() + hullB.size());
    for (std::size_t a = 0, b = 0; a < hullA.size() || b < hullB.size();) {
        const Point& onFaceA = cornerOf(hullA, firstA, a);
        const Point& onFaceB = cornerOf(hullB, firstB, b);
        corners.push_back({between(onFaceA.x, onFaceB.x, depth, thickness),
                           between(onFaceA.y, onFaceB.y, depth, thickness)});
        const Int128 left =
            turn(onFaceA, cornerOf(hullA, firstA, a + 1), onFaceB, cornerOf(hullB, firstB, b + 1));
        const bool stepA = b >= hullB.size() || (a < hullA.size() && left >= 0);
        const bool stepB = a >= hullA.size() || (b < hullB.size() && left <= 0);
        a += stepA ? 1 : 0;
        b += stepB ? 1 : 0;
    }
    return convexHull(corners);
}

std::optional<Polygon> outlineOf(const std::optional<FaceMark>& mark) {
    return mark ? std::optional(mark->outline) : std::nullopt;
}

} // namespace

std::string_view nameOf(DefectKind kind) { return wordsOf(kind).name; }

char letterOf(DefectKind kind) { return wordsOf(kind).letter; }

Length sizeOf(const Defect& defect) {
    return std::max(defect.onA ? sizeOf(*defect.onA) : Length(),
                    defect.onB ? sizeOf(*defect.onB) : Length());
}

std::optional<Polygon> outlineAtDepth(const Defect& defect, Length thickness, Length depthFromA) {
    // A plane just outside the wood is judged like the face it lies at.
    const Length depth = std::clamp(depthFromA, Length(), std::max(thickness, Length()));
    if (defect.through) {
        if (defect.onA && defect.onB && thickness > Length()) {
            return sliceBetween(defect.onA->outline, defect.onB->outline, depth, thickness);
        }
        return outlineOf(defect.onA ? defect.onA : defect.onB);
    }
    // The plane at exactly the depth of a defect is free of it.
    const Length reach = defect.depth.value_or(thickness / 2);
    const bool fromA = defect.onA && depth < reach;
    const bool fromB = defect.onB && thickness - depth < reach;
    if (fromA && fromB) {
        // Both marks of one defect reach here; what lies between them is not trusted either.
        Polygon both = defect.onA->outline;
        both.insert(both.end(), defect.onB->outline.begin(), defect.onB->outline.end());
        return convexHull(both);
    }
    if (fromA) {
        return defect.onA->outline;
    }
    return fromB ? outlineOf(defect.onB) : std::nullopt;
}

} // namespace stavewright
