#include "core/photo/CrackSearch.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace stavewright::photo {

namespace {

// Thousandths of the logarithm of light.
constexpr int darkerThanWood = -330;
constexpr int darkerThanBeside = 230;

/// Dark, and lighter wood close on both sides across the grain.
bool isThinAndDark(const GrainGrid& grid, int x, int y, int reach) {
    if (y < reach || y + reach >= grid.rows() || !grid.isWood(x, y) || !grid.isWood(x, y - reach) ||
        !grid.isWood(x, y + reach)) {
        return false;
    }
    const int light = grid.lightAt(x, y);
    return light < darkerThanWood && grid.lightAt(x, y - reach) - light > darkerThanBeside &&
           grid.lightAt(x, y + reach) - light > darkerThanBeside;
}

struct Line {
    std::vector<std::pair<int, int>> cells; ///< x, y; from left to right
    double depth = 0;
};

/// Followed to the right from a cell: the darkest cell ahead, at most one row up or down, over gaps
/// of at most three columns.
Line followed(const GrainGrid& grid, int x, int y, int reach, std::vector<bool>& taken) {
    Line line;
    int gap = 0;
    while (x < grid.columns() && gap <= 3) {
        int best = -1;
        for (const int row : {y, y - 1, y + 1}) {
            if (row >= 0 && row < grid.rows() && isThinAndDark(grid, x, row, reach) &&
                (best < 0 || grid.lightAt(x, row) < grid.lightAt(x, best))) {
                best = row;
            }
        }
        if (best < 0) {
            ++gap;
        } else {
            gap = 0;
            y = best;
            line.cells.emplace_back(x, y);
            line.depth -= grid.lightAt(x, y);
            for (int row = std::max(0, y - reach); row <= std::min(grid.rows() - 1, y + reach);
                 ++row) {
                taken[static_cast<std::size_t>(row) * static_cast<std::size_t>(grid.columns()) +
                      static_cast<std::size_t>(x)] = true;
            }
        }
        ++x;
    }
    return line;
}

} // namespace

std::vector<FoundCrack> searchCracks(const GrainGrid& grid) {
    const int reach = std::max(2, static_cast<int>(std::lround(0.015 * grid.width())));
    const double shortest = 0.15 * grid.width();
    std::vector<bool> taken(static_cast<std::size_t>(grid.columns()) *
                            static_cast<std::size_t>(grid.rows()));
    std::vector<FoundCrack> cracks;
    for (int x = 0; x < grid.columns(); ++x) {
        for (int y = 0; y < grid.rows(); ++y) {
            if (taken[static_cast<std::size_t>(y) * static_cast<std::size_t>(grid.columns()) +
                      static_cast<std::size_t>(x)] ||
                !isThinAndDark(grid, x, y, reach)) {
                continue;
            }
            const Line line = followed(grid, x, y, reach, taken);
            if (line.cells.empty()) {
                continue;
            }
            const double length = line.cells.back().first - line.cells.front().first + 1;
            if (length < shortest) {
                continue;
            }
            FoundCrack crack;
            const double depth = line.depth / static_cast<double>(line.cells.size()) / 1000;
            crack.confidence = std::clamp(0.3 * length / shortest * (depth - 0.2), 0.0, 0.6);
            const std::size_t step = std::max<std::size_t>(1, line.cells.size() / 12);
            const double half = 0.5 * reach;
            for (std::size_t i = 0; i < line.cells.size(); i += step) {
                crack.ring.push_back(
                    {line.cells[i].first + 0.0, line.cells[i].second + 0.5 - half});
            }
            const auto [lastX, lastY] = line.cells.back();
            crack.ring.push_back({lastX + 1.0, lastY + 0.5});
            for (std::size_t i = (line.cells.size() - 1) / step * step + step; i >= step;
                 i -= step) {
                const auto& cell = line.cells[i - step];
                crack.ring.push_back({cell.first + 0.0, cell.second + 0.5 + half});
            }
            cracks.push_back(std::move(crack));
        }
    }
    return cracks;
}

} // namespace stavewright::photo
