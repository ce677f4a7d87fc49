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

/// The section of the linear cone between two convex marks: the hull of all points that divide a
/// line from a corner of one to a corner of the other in the ratio of the depth.
Polygon coneAt(const Polygon& onA, const Polygon& onB, Length thickness, Length depth) {
    const Polygon hullA = convexHull(onA);
    const Polygon hullB = convexHull(onB);
    Polygon points;
    points.reserve(hullA.size() * hullB.size());
    for (const Point& a : hullA) {
        for (const Point& b : hullB) {
            points.push_back(
                {between(a.x, b.x, depth, thickness), between(a.y, b.y, depth, thickness)});
        }
    }
    return convexHull(points);
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
