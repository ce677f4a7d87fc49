#include "ui/layout/RackArrangement.h"

#include <algorithm>

namespace stavewright::ui {

namespace {

constexpr int mostColumns = 8;
constexpr double leastBoard = 56; // px of the longest board: less is a hair and says nothing

double rowOf(double height, double scale, const RackRoom& room) {
    return std::max(height * scale, room.leastRow) + room.between;
}

/// Columns that the boards take one below another.
int columnsNeeded(const std::vector<double>& heights, double scale, const RackRoom& room) {
    const double high = room.pixels.height() - 2 * room.margin;
    int columns = 1;
    double used = 0;
    for (const double height : heights) {
        const double row = rowOf(height, scale, room);
        if (used > 0 && used + row > high) {
            ++columns;
            used = 0;
        }
        used += row;
    }
    return columns;
}

/// The largest scale at which the boards fit into so many columns; zero when none does.
double scaleFor(const std::vector<double>& heights, double longest, int columns,
                const RackRoom& room) {
    const double wood = room.pixels.width() / columns - room.left - room.right;
    double most = wood / longest;
    if (most <= 0 || columnsNeeded(heights, 0, room) > columns) {
        return 0;
    }
    if (columnsNeeded(heights, most, room) <= columns) {
        return most;
    }
    double least = 0;
    constexpr int halvings = 24; // finer than a pixel on any screen
    for (int i = 0; i < halvings; ++i) {
        const double middle = (least + most) / 2;
        (columnsNeeded(heights, middle, room) <= columns ? least : most) = middle;
    }
    return least;
}

} // namespace

RackArrangement arrangeAll(const std::vector<double>& heights, double longest,
                           const RackRoom& room) {
    RackArrangement best;
    best.scale = 0;
    for (int columns = 1; columns <= mostColumns && longest > 0; ++columns) {
        const double scale = scaleFor(heights, longest, columns, room);
        if (scale > best.scale) {
            best.scale = scale;
            best.columns = columns;
        }
    }
    const double least = longest > 0 ? leastBoard / longest : 0.2;
    if (best.scale < least) {
        best.scale = least;
        const double wide = room.left + room.right + leastBoard;
        best.columns = std::clamp(static_cast<int>(room.pixels.width() / wide), 1, mostColumns);
    }
    best.columnWidth = room.pixels.width() / best.columns;
    const double high = room.pixels.height() - 2 * room.margin;
    double all = 0;
    for (const double height : heights) {
        all += rowOf(height, best.scale, room);
    }
    // What does not fit hangs lower, in columns of equal height.
    const bool fits = columnsNeeded(heights, best.scale, room) <= best.columns;
    const double foot = fits ? high : all / best.columns;
    int column = 0;
    double y = 0;
    for (const double height : heights) {
        const double row = rowOf(height, best.scale, room);
        if (y > 0 && column + 1 < best.columns && y + row > foot) {
            ++column;
            y = 0;
        }
        best.datumAndTop.emplace_back(column * best.columnWidth + room.left, room.margin + y);
        y += row;
        best.rowsEnd = std::max(best.rowsEnd, room.margin + y);
    }
    return best;
}

} // namespace stavewright::ui
