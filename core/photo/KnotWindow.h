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
} // namespace detail

/// All rectangles of one size that are tried.
template <class Visit>
void forEachWindow(const GrainGrid& grid, const detail::WindowSize& size, Visit visit) {
    // Windows may reach a little beyond the picture, for knots at its rim.
    const int overX = size.width / 4;
    const int overY = size.height / 4;
    for (int y = -overY; y + size.height <= grid.rows() + overY; y += size.stepY) {
        for (int x = -overX; x + size.width <= grid.columns() + overX; x += size.stepX) {
            const Window window{std::max(0, x), std::max(0, y),
                                std::min(grid.columns(), x + size.width),
                                std::min(grid.rows(), y + size.height)};
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
