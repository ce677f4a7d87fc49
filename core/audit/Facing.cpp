#include "core/audit/Facing.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

/// value * (a / b) * (c / d), rounded down.
Length scaled(Length value, Length a, Length b, Length c, Length d) {
    const Int128 numerator =
        static_cast<Int128>(value.inNanometres()) * a.inNanometres() * c.inNanometres();
    const Int128 divisor = static_cast<Int128>(b.inNanometres()) * d.inNanometres();
    return Length::nanometres(static_cast<std::int64_t>(numerator / divisor));
}

} // namespace

BoardExtent extentOf(const Board& board) {
    const Rect box = boundingBox(board.outline);
    const Stretch along{box.x0, box.x1};
    return {along, widestBetween(board, along)};
}

Length widestBetween(const Board& board, Stretch along) {
    Length widest;
    const auto measureAt = [&](Length x) {
        if (const auto across = acrossAt(board.outline, x)) {
            widest = std::max(widest, across->length());
        }
    };
    // The width is linear between the corners of the outline.
    measureAt(along.from);
    measureAt(along.to);
    for (const Point& corner : board.outline) {
        if (corner.x > along.from && corner.x < along.to) {
            measureAt(corner.x);
        }
    }
    return widest;
}

Length thicknessLeft(const Board& board, Stretch along, Length width, Length cleaning) {
    const BoardExtent extent = extentOf(board);
    const Length whole = extent.along.length();
    if (whole <= Length() || extent.widest <= Length()) {
        return {};
    }
    const Length length = along.length();
    const Warp& warp = board.warp;
    Length left = board.thinnest - cleaning;
    if (warp.where == Warp::Where::Even) {
        left -= scaled(warp.bow, length, whole, length, whole);
        left -= scaled(warp.cup, width, extent.widest, width, extent.widest);
        left -= scaled(warp.twist, length, whole * 2, width, extent.widest);
        return left;
    }
    // Warp that sits in one third of the board is met whole there and not at all elsewhere.
    const bool meets = warp.where == Warp::Where::MostlyAtDatumEnd
                           ? (along.from - extent.along.from) * 3 < whole
                           : (extent.along.to - along.to) * 3 < whole;
    return meets ? left - warp.bow - warp.cup - warp.twist / 2 : left;
}

} // namespace stavewright::audit_detail
