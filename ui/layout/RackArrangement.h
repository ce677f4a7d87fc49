#pragma once
// How all boards hang at once: one scale for all of them, in as many columns as make that scale
// largest, boards in rack order down each column. Pure numbers, so that it is tested apart.

#include <QPointF>
#include <QSizeF>

#include <vector>

namespace stavewright::ui {

/// Pixels at the left of each column, for the board's mark.
inline constexpr double markRoom = 46;

/// Pixels that do not scale with the wood.
struct RackRoom {
    QSizeF pixels; ///< of the view
    double left = markRoom;
    double right = 52;    ///< for its yield, at the right
    double between = 3;   ///< between two boards of a column
    double leastRow = 12; ///< a row holds a line of small type
    double margin = 6;    ///< above and below
};

struct RackArrangement {
    double scale = 0.2; ///< pixels a millimetre
    int columns = 1;
    double columnWidth = 0;           ///< pixels
    std::vector<QPointF> datumAndTop; ///< pixels: datum end and top of the row, for each board
    double rowsEnd = 0;               ///< pixels: foot of the lowest row
};

/// `heights` and `longest` in millimetres. With so many boards that they would be hairs the scale
/// stays readable and the arrangement is higher than the room.
[[nodiscard]] RackArrangement arrangeAll(const std::vector<double>& heights, double longest,
                                         const RackRoom& room);

} // namespace stavewright::ui
