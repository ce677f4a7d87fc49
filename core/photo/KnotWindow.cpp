#include "core/photo/KnotWindow.h"

#include <algorithm>
#include <cmath>

namespace stavewright::photo {

namespace {

/// Sums over a rectangle.
struct Cell {
    std::array<float, channelCount> sum{};

    Cell& operator+=(const Cell& other) {
        for (std::size_t c = 0; c < channelCount; ++c) {
            sum[c] += other.sum[c];
        }
        return *this;
    }
    [[nodiscard]] float at(Channel channel) const { return sum[static_cast<std::size_t>(channel)]; }
    [[nodiscard]] float wood() const { return sum[0] / 256; }
    /// Mean over the wood; `otherwise` where there is none.
    [[nodiscard]] float mean(Channel channel, float otherwise) const {
        return wood() > 0.5F ? at(channel) / wood() : otherwise;
    }
};

Cell cellBetween(const Sums& a, const Sums& b, const Sums& c, const Sums& d) {
    Cell cell;
    for (std::size_t i = 0; i < channelCount; ++i) {
        cell.sum[i] = static_cast<float>(static_cast<std::int32_t>(
            static_cast<std::uint32_t>(d[i]) - static_cast<std::uint32_t>(b[i]) -
            static_cast<std::uint32_t>(c[i]) + static_cast<std::uint32_t>(a[i])));
    }
    return cell;
}

float sumOf(const GrainGrid& grid, const Window& w, Channel channel) {
    const auto i = static_cast<std::size_t>(channel);
    const auto u = [&](int x, int y) { return static_cast<std::uint32_t>(grid.upTo(x, y)[i]); };
    return static_cast<float>(
        static_cast<std::int32_t>(u(w.x1, w.y1) - u(w.x0, w.y1) - u(w.x1, w.y0) + u(w.x0, w.y0)));
}

/// The window in three by three parts, and as much again on each side: five by five.
struct Parts {
    std::array<std::array<Cell, 5>, 5> cell; ///< [row][column]
    Cell inside;
    Cell left;
    Cell right;
    Cell above;
    Cell below;
    Cell around;  ///< the four sides and the four corners
    Cell corners; ///< of the inside
    Cell rim;     ///< the inside without its middle

    Parts(const GrainGrid& grid, const Window& w) {
        std::array<int, 6> x{};
        std::array<int, 6> y{};
        for (int i = 0; i < 6; ++i) {
            const auto k = static_cast<std::size_t>(i);
            x[k] = std::clamp(w.x0 + (i - 1) * (w.x1 - w.x0) / 3, 0, grid.columns());
            y[k] = std::clamp(w.y0 + (i - 1) * (w.y1 - w.y0) / 3, 0, grid.rows());
        }
        x[4] = w.x1;
        y[4] = w.y1;
        for (std::size_t r = 0; r < 5; ++r) {
            for (std::size_t c = 0; c < 5; ++c) {
                cell[r][c] = cellBetween(grid.upTo(x[c], y[r]), grid.upTo(x[c + 1], y[r]),
                                         grid.upTo(x[c], y[r + 1]), grid.upTo(x[c + 1], y[r + 1]));
            }
        }
        for (std::size_t i = 1; i < 4; ++i) {
            left += cell[i][0];
            right += cell[i][4];
            above += cell[0][i];
            below += cell[4][i];
            for (std::size_t k = 1; k < 4; ++k) {
                inside += cell[i][k];
            }
        }
        for (const std::size_t r : {1U, 3U}) {
            for (const std::size_t c : {1U, 3U}) {
                corners += cell[r][c];
            }
            rim += cell[r][2];
            rim += cell[2][r];
        }
        rim += corners;
        for (const Cell* side :
             {&left, &right, &above, &below, &cell[0][0], &cell[0][4], &cell[4][0], &cell[4][4]}) {
            around += *side;
        }
    }
};

class Writer {
  public:
    explicit Writer(Measures& measures)
        : m_measures(measures) {}
    void add(float value) { m_measures[m_next++] = std::isfinite(value) ? value : 0.F; }
    [[nodiscard]] std::size_t count() const { return m_next; }

  private:
    Measures& m_measures;
    std::size_t m_next = 0;
};

/// Ten ways in which a channel compares.
void compare(Writer& out, const Parts& p, Channel channel) {
    const float outside = p.around.mean(channel, 0);
    const float inside = p.inside.mean(channel, outside);
    const float left = p.left.mean(channel, outside);
    const float right = p.right.mean(channel, outside);
    const float above = p.above.mean(channel, outside);
    const float below = p.below.mean(channel, outside);
    const float middle = p.cell[2][2].mean(channel, inside);
    const float most = std::max({left, right, above, below});
    const float least = std::min({left, right, above, below});
    out.add(inside);
    out.add(inside - outside);
    out.add(middle - p.rim.mean(channel, inside));
    out.add(inside - least);
    out.add(inside - most);
    out.add(std::min(left, right) - std::min(above, below));
    out.add(inside - p.corners.mean(channel, inside));
    out.add(std::abs(left - right));
    out.add(std::abs(above - below));
    out.add(std::abs(p.cell[2][1].mean(channel, inside) - p.cell[2][3].mean(channel, inside)) +
            std::abs(p.cell[1][2].mean(channel, inside) - p.cell[3][2].mean(channel, inside)));
}

/// Share of the change of light that is across the grain, and how far it is askew.
void orientation(Writer& out, const Cell& cell) {
    const float along = cell.at(Channel::ChangeAlong);
    const float across = cell.at(Channel::ChangeAcross);
    const float all = along + across + 1;
    out.add((across - along) / all);
    out.add(std::abs(cell.at(Channel::ChangeBoth)) / all);
}

float energy(const Cell& cell) {
    return (cell.at(Channel::ChangeAlong) + cell.at(Channel::ChangeAcross)) /
           std::max(cell.wood(), 0.5F);
}

float spread(const Cell& cell) {
    const float mean = cell.mean(Channel::Light, 0) / 1000;
    const float square = cell.mean(Channel::LightSquare, 0) / 1000;
    return std::sqrt(std::max(0.F, square - mean * mean));
}

} // namespace

double overlapOf(const Window& a, const Window& b) {
    const double w = std::min(a.x1, b.x1) - std::max(a.x0, b.x0);
    const double h = std::min(a.y1, b.y1) - std::max(a.y0, b.y0);
    if (w <= 0 || h <= 0) {
        return 0;
    }
    const auto area = [](const Window& o) {
        return static_cast<double>(o.x1 - o.x0) * (o.y1 - o.y0);
    };
    return w * h / (area(a) + area(b) - w * h);
}

bool worthMeasuring(const GrainGrid& grid, const Window& w) {
    const int dx = (w.x1 - w.x0) / 3;
    const int dy = (w.y1 - w.y0) / 3;
    const Window outer{std::max(0, w.x0 - dx), std::max(0, w.y0 - dy),
                       std::min(grid.columns(), w.x1 + dx), std::min(grid.rows(), w.y1 + dy)};
    const float woodIn = std::max(sumOf(grid, w, Channel::Wood) / 256, 0.5F);
    const float woodOut = std::max(sumOf(grid, outer, Channel::Wood) / 256 - woodIn, 0.5F);
    const float lightIn = sumOf(grid, w, Channel::Light);
    const float lightOut = sumOf(grid, outer, Channel::Light) - lightIn;
    const float contrast = lightIn / woodIn - lightOut / woodOut;
    if (contrast < -40) {
        return true;
    }
    // A light knot shows by its ring and by the grain that goes round it.
    const float alongIn = sumOf(grid, w, Channel::ChangeAlong);
    const float alongOut = sumOf(grid, outer, Channel::ChangeAlong) - alongIn;
    return alongIn / woodIn > 1.6F * alongOut / woodOut + 3;
}

Measures measure(const GrainGrid& grid, const Window& w) {
    Measures measures{};
    Writer out(measures);
    const Parts p(grid, w);
    for (const Channel channel :
         {Channel::Light, Channel::Warm, Channel::Green, Channel::Dark, Channel::Darker,
          Channel::Darkest, Channel::Detail, Channel::ChangeAlong}) {
        compare(out, p, channel);
    }
    orientation(out, p.inside);
    orientation(out, p.around);
    orientation(out, p.cell[2][2]);
    orientation(out, p.rim);
    // Grain that flows round: askew one way at one corner, the other way at the next.
    const float flow = p.cell[0][0].at(Channel::ChangeBoth) - p.cell[0][4].at(Channel::ChangeBoth) -
                       p.cell[4][0].at(Channel::ChangeBoth) + p.cell[4][4].at(Channel::ChangeBoth);
    float change = 1;
    for (const Cell* corner : {&p.cell[0][0], &p.cell[0][4], &p.cell[4][0], &p.cell[4][4]}) {
        change += corner->at(Channel::ChangeAlong) + corner->at(Channel::ChangeAcross);
    }
    out.add(flow / change);
    out.add(energy(p.inside));
    out.add(energy(p.inside) / (energy(p.around) + 1));
    out.add(energy(p.cell[2][2]) / (energy(p.rim) + 1));
    out.add(spread(p.inside));
    out.add(spread(p.around));
    const auto contrast = static_cast<float>(grid.grainContrast());
    out.add(contrast);
    out.add((p.inside.mean(Channel::Light, 0) - p.around.mean(Channel::Light, 0)) / contrast);
    const auto width = static_cast<float>(w.x1 - w.x0);
    const auto height = static_cast<float>(w.y1 - w.y0);
    out.add(std::sqrt(width * height) / static_cast<float>(grid.width()));
    out.add(width / height);
    out.add(p.inside.wood() / (width * height));
    out.add(p.around.wood() / (width * height));
    out.add(p.left.wood() / (width * height));
    out.add(p.right.wood() / (width * height));
    out.add(p.above.wood() / (width * height));
    out.add(p.below.wood() / (width * height));
    return measures;
}

namespace detail {

std::vector<WindowSize> windowSizes(const GrainGrid& grid) {
    std::vector<WindowSize> sizes;
    const double most = 0.6 * grid.width();
    for (double size = std::max(6.0, 0.032 * grid.width()); size <= most; size *= 1.26) {
        for (const double shape : {0.3, 0.55, 1.0, 1.8, 3.0}) {
            WindowSize s{static_cast<int>(std::lround(size * std::sqrt(shape))),
                         static_cast<int>(std::lround(size / std::sqrt(shape))), 1, 1};
            s.width = std::max(3, s.width);
            s.height = std::max(3, s.height);
            s.stepX = std::max(1, static_cast<int>(std::lround(s.width / 5.0)));
            s.stepY = std::max(1, static_cast<int>(std::lround(s.height / 5.0)));
            sizes.push_back(s);
        }
    }
    return sizes;
}

WindowRaster::WindowRaster(const GrainGrid& on, const WindowSize& window)
    : size(window)
    , gridColumns(on.columns())
    , gridRows(on.rows()) {
    const int spanX = gridColumns + 2 * (size.width / 4) - size.width;
    const int spanY = gridRows + 2 * (size.height / 4) - size.height;
    columns = spanX < 0 ? 0 : spanX / size.stepX + 1;
    rows = spanY < 0 ? 0 : spanY / size.stepY + 1;
}

Window WindowRaster::at(int column, int row) const {
    const int x = column * size.stepX - size.width / 4;
    const int y = row * size.stepY - size.height / 4;
    return {std::max(0, x), std::max(0, y), std::min(gridColumns, x + size.width),
            std::min(gridRows, y + size.height)};
}

bool liesOnWood(const GrainGrid& grid, const Window& w) {
    const float area = static_cast<float>(w.x1 - w.x0) * static_cast<float>(w.y1 - w.y0);
    return area > 0 && sumOf(grid, w, Channel::Wood) > 0.55F * 256 * area;
}

} // namespace detail

} // namespace stavewright::photo
