#include "core/photo/CrackSearch.h"

#include <algorithm>
#include <cmath>

namespace stavewright::photo {

namespace {

// Thousandths of the logarithm of light.
constexpr float leastDepth = 110;
/// How much deeper than the ordinary lines of this board a crack must be.
constexpr float deeperThanGrain = 2.6F;
/// What continues a line, against what starts one.
constexpr float continues = 0.5F;
/// Cells to each side over which a line along the grain is evened out.
constexpr int smoothing = 2;
constexpr int longestGap = 4; // columns

/// How deep each cell lies below the wood on both sides across the grain. A crack is dark because
/// no light falls into it, so its colour hardly changes; late wood, pith and resin are darker and
/// redder, which is taken off.
class Depths {
  public:
    Depths(const GrainGrid& grid, int reach)
        : m_columns(grid.columns())
        , m_rows(grid.rows())
        , m_values(static_cast<std::size_t>(m_columns) * static_cast<std::size_t>(m_rows)) {
        std::vector<float> dark(m_values.size());
        std::vector<float> row(static_cast<std::size_t>(m_columns));
        for (int y = 0; y < m_rows; ++y) {
            for (int x = 0; x < m_columns; ++x) {
                row[static_cast<std::size_t>(x)] =
                    static_cast<float>(grid.lightAt(x, y)) +
                    0.8F * static_cast<float>(grid.valueAt(Channel::Warm, x, y));
            }
            for (int x = 0; x < m_columns; ++x) {
                float sum = 0;
                for (int k = -smoothing; k <= smoothing; ++k) {
                    sum += row[static_cast<std::size_t>(std::clamp(x + k, 0, m_columns - 1))];
                }
                dark[place(x, y)] = sum / (2 * smoothing + 1);
            }
        }
        for (int y = reach; y + reach < m_rows; ++y) {
            for (int x = 0; x < m_columns; ++x) {
                if (grid.isWood(x, y) && grid.isWood(x, y - reach) && grid.isWood(x, y + reach)) {
                    m_values[place(x, y)] =
                        std::min(dark[place(x, y - reach)], dark[place(x, y + reach)]) -
                        dark[place(x, y)];
                }
            }
        }
    }
    [[nodiscard]] float at(int x, int y) const { return m_values[place(x, y)]; }
    [[nodiscard]] int columns() const { return m_columns; }
    [[nodiscard]] int rows() const { return m_rows; }
    /// Nine in ten of the lines in this board are shallower.
    [[nodiscard]] float ordinary() const {
        std::vector<float> some;
        for (std::size_t i = 0; i < m_values.size(); i += 7) {
            if (m_values[i] > 0) {
                some.push_back(m_values[i]);
            }
        }
        if (some.empty()) {
            return 0;
        }
        const auto ninth = some.begin() + static_cast<std::ptrdiff_t>(some.size() * 9 / 10);
        std::nth_element(some.begin(), ninth, some.end());
        return *ninth;
    }

  private:
    [[nodiscard]] std::size_t place(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(m_columns) +
               static_cast<std::size_t>(x);
    }
    int m_columns;
    int m_rows;
    std::vector<float> m_values;
};

struct Line {
    std::vector<std::pair<int, int>> cells; ///< x, y; from left to right
    float depth = 0;                        ///< sum
};

/// Followed from a cell one way: the deepest cell ahead, at most one row up or down.
void follow(const Depths& depths, int x, int y, int way, float least, Line& line) {
    int gap = 0;
    for (x += way; x >= 0 && x < depths.columns() && gap <= longestGap; x += way) {
        int best = -1;
        for (const int row : {y, y - 1, y + 1}) {
            if (row >= 0 && row < depths.rows() && depths.at(x, row) > least &&
                (best < 0 || depths.at(x, row) > depths.at(x, best))) {
                best = row;
            }
        }
        if (best < 0) {
            ++gap;
            continue;
        }
        gap = 0;
        y = best;
        line.cells.emplace_back(x, y);
        line.depth += depths.at(x, y);
    }
}

std::vector<Pixels> ringOf(const Line& line, double half) {
    std::vector<Pixels> ring;
    const std::size_t step = std::max<std::size_t>(1, line.cells.size() / 12);
    for (std::size_t i = 0; i < line.cells.size(); i += step) {
        ring.push_back({line.cells[i].first + 0.0, line.cells[i].second + 0.5 - half});
    }
    const auto [lastX, lastY] = line.cells.back();
    ring.push_back({lastX + 1.0, lastY + 0.5});
    for (std::size_t i = (line.cells.size() - 1) / step * step + step; i >= step; i -= step) {
        const auto& cell = line.cells[i - step];
        ring.push_back({cell.first + 0.0, cell.second + 0.5 + half});
    }
    return ring;
}

} // namespace

std::vector<FoundCrack> searchCracks(const GrainGrid& grid) {
    const int reach = std::max(2, static_cast<int>(std::lround(0.015 * grid.width())));
    const double shortest = std::max(8.0, 0.12 * grid.width());
    const Depths depths(grid, reach);
    const float deep = std::max(leastDepth, deeperThanGrain * depths.ordinary());
    struct Start {
        float depth;
        int x;
        int y;
    };
    std::vector<Start> starts;
    for (int y = 0; y < depths.rows(); ++y) {
        for (int x = 0; x < depths.columns(); ++x) {
            if (depths.at(x, y) > deep) {
                starts.push_back({depths.at(x, y), x, y});
            }
        }
    }
    std::stable_sort(starts.begin(), starts.end(),
                     [](const Start& a, const Start& b) { return a.depth > b.depth; });
    std::vector<bool> taken(static_cast<std::size_t>(grid.columns()) *
                            static_cast<std::size_t>(grid.rows()));
    const auto place = [&](int x, int y) {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(grid.columns()) +
               static_cast<std::size_t>(x);
    };
    std::vector<FoundCrack> cracks;
    for (const Start& start : starts) {
        if (taken[place(start.x, start.y)]) {
            continue;
        }
        Line left;
        follow(depths, start.x, start.y, -1, continues * deep, left);
        Line line;
        line.cells.assign(left.cells.rbegin(), left.cells.rend());
        line.cells.emplace_back(start.x, start.y);
        line.depth = left.depth + start.depth;
        follow(depths, start.x, start.y, 1, continues * deep, line);
        for (const auto& [x, y] : line.cells) {
            for (int row = std::max(0, y - reach); row <= std::min(grid.rows() - 1, y + reach);
                 ++row) {
                taken[place(x, row)] = true;
            }
        }
        const double length = line.cells.back().first - line.cells.front().first + 1;
        if (length < shortest) {
            continue;
        }
        const double depth =
            static_cast<double>(line.depth / deep) / static_cast<double>(line.cells.size());
        FoundCrack crack;
        crack.ring = ringOf(line, 0.5 * reach);
        // However long, a line hardly deeper than the grain is rather grain.
        crack.confidence = std::clamp(
            0.1 + 0.45 * (depth - 0.6) + std::min(0.15, 0.05 * (length / shortest - 1)), 0.0, 0.7);
        cracks.push_back(std::move(crack));
    }
    return cracks;
}

} // namespace stavewright::photo
