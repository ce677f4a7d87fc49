#include "core/audit/Surface.h"

#include <algorithm>

namespace stavewright::audit_detail {

namespace {

/// a + (b - a) * part / whole, rounded to the nearest nanometre.
Length between(Length a, Length b, Length part, Length whole) {
    const Int128 twice = 2 * static_cast<Int128>((b - a).inNanometres()) * part.inNanometres();
    const Int128 divisor = 2 * static_cast<Int128>(whole.inNanometres());
    const Int128 half = whole.inNanometres();
    const Int128 rounded = (twice < 0 ? twice - half : twice + half) / divisor;
    return a + Length::nanometres(static_cast<std::int64_t>(rounded));
}

/// The turn from one edge to another: above 0 to the left.
Int128 turnTo(const Point& from, const Point& to, const Point& otherFrom, const Point& otherTo) {
    const auto x = [](const Point& a, const Point& b) {
        return static_cast<Int128>((b.x - a.x).inNanometres());
    };
    const auto y = [](const Point& a, const Point& b) {
        return static_cast<Int128>((b.y - a.y).inNanometres());
    };
    return x(from, to) * y(otherFrom, otherTo) - y(from, to) * x(otherFrom, otherTo);
}

/// The section of the linear cone between two convex marks: the hull of all points that divide a
/// line from a corner of one to a corner of the other in the ratio of the depth. Only corners that
/// lie farthest in the same direction give one of its corners, so both are gone round together,
/// edge by edge in the order of their directions.
Polygon coneAt(const Polygon& onA, const Polygon& onB, Length thickness, Length depth) {
    const Polygon hullA = convexHull(onA); // each begins with its leftmost corner
    const Polygon hullB = convexHull(onB);
    Polygon points;
    if (hullA.empty() || hullB.empty()) {
        return points;
    }
    points.reserve(hullA.size() + hullB.size());
    std::size_t i = 0;
    std::size_t j = 0;
    while (true) {
        const Point& a = hullA[i % hullA.size()];
        const Point& b = hullB[j % hullB.size()];
        points.push_back(
            {between(a.x, b.x, depth, thickness), between(a.y, b.y, depth, thickness)});
        const bool isRoundA = i == hullA.size() || hullA.size() == 1;
        const bool isRoundB = j == hullB.size() || hullB.size() == 1;
        if (isRoundA && isRoundB) {
            return convexHull(points);
        }
        const Int128 turn =
            isRoundA   ? -1
            : isRoundB ? 1
                       : turnTo(a, hullA[(i + 1) % hullA.size()], b, hullB[(j + 1) % hullB.size()]);
        i += turn >= 0 ? 1 : 0;
        j += turn <= 0 ? 1 : 0;
    }
}

Length sizeOfMark(const FaceMark& mark) {
    if (mark.form) {
        return std::max(mark.form->along, mark.form->across);
    }
    const Rect box = boundingBox(mark.outline);
    return std::max(box.length(), box.width());
}

Length share(Length size, int hundredths) {
    return Length::nanometres(
        static_cast<std::int64_t>(static_cast<Int128>(size.inNanometres()) * hundredths / 100));
}

} // namespace

std::optional<Polygon> markAtDepth(const Defect& defect, Length thickness, Length depth) {
    const auto outlineOf = [](const std::optional<FaceMark>& mark) {
        return mark ? std::optional(mark->outline) : std::nullopt;
    };
    if (defect.through) {
        if (defect.onA && defect.onB && thickness > Length()) {
            return coneAt(defect.onA->outline, defect.onB->outline, thickness, depth);
        }
        return outlineOf(defect.onA ? defect.onA : defect.onB);
    }
    // A plane at exactly the defect's depth has just lost it.
    const Length reach = defect.depth.value_or(thickness / 2);
    const bool fromA = defect.onA && depth < reach;
    const bool fromB = defect.onB && thickness - depth < reach;
    if (fromA && fromB) {
        Polygon both = defect.onA->outline;
        both.insert(both.end(), defect.onB->outline.begin(), defect.onB->outline.end());
        return convexHull(both);
    }
    return fromA ? outlineOf(defect.onA) : fromB ? outlineOf(defect.onB) : std::nullopt;
}

Length ruleSize(const Defect& defect) {
    Length size;
    if (defect.onA) {
        size = std::max(size, sizeOfMark(*defect.onA));
    }
    if (defect.onB) {
        size = std::max(size, sizeOfMark(*defect.onB));
    }
    return size;
}

Margin marginOf(const Defect& defect, const Halo& halo) {
    switch (defect.kind) {
    case DefectKind::SoundKnot:
    case DefectKind::LooseKnot:
    case DefectKind::KnotHole:
    case DefectKind::BarkPocket: {
        const Length size = ruleSize(defect);
        return {std::max(halo.leastAlong, share(size, halo.alongHundredths)),
                std::max(halo.leastAcross, share(size, halo.acrossHundredths))};
    }
    default:
        return {};
    }
}

} // namespace stavewright::audit_detail
