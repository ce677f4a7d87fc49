#include "core/lumber/MarkPlace.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

bool isUnturnedEllipse(const FaceMark& mark) {
    return mark.form && mark.form->turnMicroradians == 0;
}

FaceMark ellipseIn(const Rect& box) {
    const Point centre{box.x0 + box.length() / 2, box.y0 + box.width() / 2};
    return {ellipsePolygon(centre, box.length(), box.width()),
            Ellipse{centre, box.length(), box.width(), 0}};
}

Length nearEdgeAt(const Polygon& boardOutline, Length x) {
    const Rect board = boundingBox(boardOutline);
    const auto across = acrossAt(boardOutline, std::clamp(x, board.x0, board.x1));
    return across ? across->from : board.y0;
}

Rect boxAt(const Polygon& boardOutline, const MarkPlace& place) {
    const Length edge = nearEdgeAt(boardOutline, place.fromDatum + place.along / 2);
    const Length y0 = edge + place.fromEdge;
    return {place.fromDatum, y0, place.fromDatum + place.along, y0 + place.across};
}

/// `value` carried from one stretch to another in proportion.
Length carried(Length value, Length from, Length extent, Length toFrom, Length toExtent) {
    if (extent <= Length()) {
        return toFrom;
    }
    const Int128 product = ((value - from) * toExtent).inSquareNanometres();
    return toFrom + Length::nanometres(static_cast<std::int64_t>(product / extent.inNanometres()));
}

} // namespace

bool isRound(DefectKind kind) {
    switch (kind) {
    case DefectKind::SoundKnot:
    case DefectKind::LooseKnot:
    case DefectKind::KnotHole:
    case DefectKind::BarkPocket:
    case DefectKind::WormHoles:
        return true;
    default:
        return false;
    }
}

bool isLine(DefectKind kind) {
    switch (kind) {
    case DefectKind::Check:
    case DefectKind::Split:
    case DefectKind::Shake:
    case DefectKind::Pith:
        return true;
    default:
        return false;
    }
}

Rect boxOf(const FaceMark& mark) {
    if (!isUnturnedEllipse(mark)) {
        return boundingBox(mark.outline);
    }
    const Ellipse& form = *mark.form;
    const Point low{form.centre.x - form.along / 2, form.centre.y - form.across / 2};
    return {low.x, low.y, low.x + form.along, low.y + form.across};
}

MarkPlace placeOf(const Polygon& boardOutline, const FaceMark& mark) {
    const Rect box = boxOf(mark);
    return {box.x0, box.y0 - nearEdgeAt(boardOutline, box.x0 + box.length() / 2), box.length(),
            box.width()};
}

FaceMark markAt(const Polygon& boardOutline, DefectKind kind, const MarkPlace& place) {
    const Rect box = boxAt(boardOutline, place);
    if (isRound(kind)) {
        return ellipseIn(box);
    }
    return {polygonOf(box), std::nullopt};
}

FaceMark stretchedTo(const FaceMark& mark, const Rect& to) {
    if (isUnturnedEllipse(mark)) {
        return ellipseIn(to);
    }
    const Rect from = boundingBox(mark.outline);
    if (to.length() == from.length() && to.width() == from.width()) {
        return shifted(mark, to.x0 - from.x0, to.y0 - from.y0);
    }
    FaceMark moved{mark.outline, std::nullopt}; // a turned ellipse that is stretched is a polygon
    for (Point& corner : moved.outline) {
        corner = {carried(corner.x, from.x0, from.length(), to.x0, to.length()),
                  carried(corner.y, from.y0, from.width(), to.y0, to.width())};
    }
    return moved;
}

FaceMark movedTo(const Polygon& boardOutline, const FaceMark& mark, const MarkPlace& place) {
    return stretchedTo(mark, boxAt(boardOutline, place));
}

FaceMark asKind(const Polygon& boardOutline, const FaceMark& mark, DefectKind from, DefectKind to) {
    const MarkPlace place = placeOf(boardOutline, mark);
    const bool measured = mark == markAt(boardOutline, from, place);
    return measured ? markAt(boardOutline, to, place) : mark;
}

FaceMark shifted(const FaceMark& mark, Length along, Length across) {
    FaceMark moved = mark;
    for (Point& corner : moved.outline) {
        corner = {corner.x + along, corner.y + across};
    }
    if (moved.form) {
        moved.form->centre = {moved.form->centre.x + along, moved.form->centre.y + across};
    }
    return moved;
}

Point offsetBetween(const FaceMark& first, const FaceMark& second) {
    const Rect from = boxOf(first);
    const Rect to = boxOf(second);
    return {to.x0 - from.x0, to.y0 - from.y0};
}

} // namespace stavewright
