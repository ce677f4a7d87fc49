#pragma once
// A rectangle of the grid that may hold a knot, and what can be said of it: each measure compares
// the rectangle, its parts and the wood on its four sides. Only of this folder and of the training.

#include <algorithm>
#include <array>
#include <vector>

#include "core/photo/GrainGrid.h"

namespace stavewright::photo {

/// In cells; x0 < x1, y0 < y1.
struct Window {
    int x0 = 0;
    int y0 = 0;
    int x1 = 0;
    int y1 = 0;
};
/// Area of the common part by area of both together.
[[nodiscard]] double overlapOf(const Window& a, const Window& b);

inline constexpr std::size_t measureCount = 104;
using Measures = std::array<float, measureCount>;

/// Cheap: whether it is worth measuring at all. Rejects flat, even wood.
[[nodiscard]] bool worthMeasuring(const GrainGrid& grid, const Window& window);
[[nodiscard]] Measures measure(const GrainGrid& grid, const Window& window);

namespace detail {
struct WindowSize {
    int width;
    int height;
    int stepX;
    int stepY;
};
[[nodiscard]] std::vector<WindowSize> windowSizes(const GrainGrid& grid);
[[nodiscard]] bool liesOnWood(const GrainGrid& grid, const Window& window);

/// Where the windows of one size lie, by column and row. They may reach a little beyond the
/// picture, for knots at its rim, and are cut off there.
struct WindowRaster {
    WindowRaster(const GrainGrid& on, const WindowSize& window);
    [[nodiscard]] Window at(int column, int row) const;

    WindowSize size;
    int gridColumns;
    int gridRows;
    int columns = 0;
    int rows = 0;
};
} // namespace detail

/// All rectangles of one size that are tried.
template <class Visit>
void forEachWindow(const GrainGrid& grid, const detail::WindowSize& size, Visit visit) {
    const detail::WindowRaster raster(grid, size);
    for (int row = 0; row < raster.rows; ++row) {
        for (int column = 0; column < raster.columns; ++column) {
            const Window window = raster.at(column, row);
            if (detail::liesOnWood(grid, window)) {
                visit(window);
            }
        }
    }
}
/// Of all sizes and shapes, in a fixed order.
template <class Visit>
void forEachWindow(const GrainGrid& grid, Visit visit) {
    for (const detail::WindowSize& size : detail::windowSizes(grid)) {
        forEachWindow(grid, size, visit);
    }
}

} // namespace stavewright::photo
