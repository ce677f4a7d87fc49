#include "core/cutting/PlaceGrid.h"

#include <algorithm>

#include "core/cutting/Places.h"

namespace stavewright::cutting {

namespace {

/// Somewhere in [begin, end] the edge stands higher than before.
bool risesAlong(const EdgeChain& edge, Nm begin, Nm end) {
    double lowest = edge.at(begin);
    for (const Point& corner : edge.corners()) {
        const Nm x = corner.x.inNanometres();
        if (x > begin && x < end) {
            if (edge.at(x) > lowest) {
                return true;
            }
            lowest = edge.at(x);
        }
    }
    return edge.at(end) > lowest;
}

} // namespace

PlaceGrid::PlaceGrid(const Context& context, const BoardModel& model, const Stretch& stretch,
                     const std::vector<PlaceItem>& items)
    : m_context(&context)
    , m_items(&items)
    , m_shape(model, stretch.from.inNanometres(), stretch.to.inNanometres())
    , m_pieces(model, m_shape, context.rules) {}

std::vector<Nm> PlaceGrid::stopsAcross(const std::vector<bool>& asked) const {
    // At the straight edge and at what any blank meets.
    std::vector<Nm> stops = {0};
    std::vector<Obstacle> obstacles;
    for (const BlankPose& pose : m_context->poses) {
        if (!asked[static_cast<std::size_t>(pose.kind)]) {
            continue;
        }
        obstacles.clear();
        for (const Nm low : m_along.lows) {
            m_pieces.obstacles(pose, low - m_shape.x0(), obstacles);
        }
        for (const Obstacle& obstacle : obstacles) {
            if (!obstacle.lowOnHigh) {
                stops.push_back(obstacle.below);
                continue;
            }
            for (const PlaceItem& item : *m_items) {
                if (item.kind == pose.kind) {
                    stops.push_back(obstacle.below - item.width);
                }
            }
        }
    }
    sortUnique(stops);
    return stops;
}

std::optional<PlaceGrid> PlaceGrid::of(const Context& context, const BoardModel& model,
                                       const Stretch& stretch, const std::vector<PlaceItem>& items,
                                       const PlaceLimits& most) {
    const Nm begin = stretch.from.inNanometres();
    const Nm end = stretch.to.inNanometres();
    if (model.nearEdge().lowest(begin, end) != model.nearEdge().highest(begin, end)) {
        return std::nullopt;
    }
    if (risesAlong(model.farEdge(), begin, end)) {
        return std::nullopt; // it would stop pieces at any height, as soon as one fits below it
    }
    PlaceGrid grid(context, model, stretch, items);
    const Limits& limits = context.problem->limits;
    std::vector<Nm> lengths;
    std::vector<Nm> widths;
    std::vector<bool> asked(context.problem->kinds.size(), false);
    for (const PlaceItem& item : items) {
        lengths.push_back(item.length);
        widths.push_back(item.width);
        asked[static_cast<std::size_t>(item.kind)] = true;
    }
    sortUnique(lengths);
    sortUnique(widths);

    // Along: pieces stop at the low end, at a defect, and where the far end of the board saves a
    // cut.
    std::vector<Nm> stops = {0};
    for (const BlankPose& pose : context.poses) {
        if (asked[static_cast<std::size_t>(pose.kind)]) {
            grid.m_pieces.clearPlaces(pose, stops);
        }
    }
    for (Nm& stop : stops) {
        stop += begin;
    }
    if (model.board().warpWhere == 1) {
        // Where a section is clear of warp that sits at the datum end.
        stops.push_back(model.size().xBegin + (model.size().xEnd - model.size().xBegin + 2) / 3);
    }
    std::vector<Nm> highStops;
    if (end == model.size().xEnd) {
        highStops.push_back(end);
    }
    std::vector<Nm> spans = lengths;
    if (limits.leastFacedLength > 0) {
        spans.push_back(limits.leastFacedLength);
    }
    std::vector<Nm> kerfs = {limits.crosscutKerf, limits.stripCrosscutKerf};
    sortUnique(kerfs);
    grid.m_along = edgePlaces(stops, highStops, spans, kerfs, begin, end, most.along);
    if (!grid.m_along.isComplete) {
        return std::nullopt;
    }

    spans = widths;
    for (const Nm width : widths) {
        spans.push_back(width + limits.ripKerf); // the narrowest strip with a trimming rip
    }
    if (limits.narrowestRip > 0) {
        spans.push_back(limits.narrowestRip);
    }
    sortUnique(spans);
    grid.m_across = edgePlaces(grid.stopsAcross(asked), {}, spans, {limits.ripKerf}, 0,
                               grid.m_shape.vTop(), most.across);
    if (!grid.m_across.isComplete) {
        return std::nullopt;
    }
    grid.m_places = grid.m_across.lows;
    for (const Nm top : grid.m_across.highs) {
        for (const Nm width : widths) {
            grid.m_places.push_back(top - width);
        }
    }
    sortUnique(grid.m_places);
    const std::size_t lows = grid.m_along.lows.size();
    grid.m_fits.resize(items.size() * lows * grid.m_places.size());
    grid.m_ends.assign(items.size() * lows, -1);
    const std::vector<Nm>& highs = grid.m_along.highs;
    for (std::size_t i = 0; i < items.size(); ++i) {
        for (std::size_t low = 0; low < lows; ++low) {
            const Nm high = grid.m_along.lows[low] + items[i].length;
            const auto at = std::lower_bound(highs.begin(), highs.end(), high);
            if (at != highs.end() && *at == high) {
                grid.m_ends[i * lows + low] = static_cast<int>(at - highs.begin());
            }
        }
    }
    return grid;
}

std::size_t PlaceGrid::placeAt(Nm v) const {
    return static_cast<std::size_t>(std::lower_bound(m_places.begin(), m_places.end(), v) -
                                    m_places.begin());
}

const PlaceGrid::Fit& PlaceGrid::fit(std::size_t item, std::size_t low, std::size_t place) {
    Fit& fit = m_fits[indexOf(item, low, place)];
    if (fit.cost != -2) {
        return fit;
    }
    fit.cost = -1;
    const PlaceItem& wanted = (*m_items)[item];
    const Nm u0 = m_along.lows[low] - m_shape.x0();
    const Nm v0 = m_places[place];
    const Nm v1 = v0 + wanted.width;
    if (v0 < 0 || u0 + wanted.length > m_shape.uHigh() ||
        v1 > m_shape.clearTop(u0, u0 + wanted.length)) {
        return fit;
    }
    std::vector<Obstacle> obstacles;
    for (std::size_t p = 0; p < m_context->poses.size(); ++p) {
        if (m_context->poses[p].kind != wanted.kind) {
            continue;
        }
        obstacles.clear();
        m_pieces.obstacles(m_context->poses[p], u0, obstacles);
        const ObstacleRange range{obstacles.data(), obstacles.data() + obstacles.size()};
        if (!isClear(range, v0, v1)) {
            continue;
        }
        const Cost cost = fillsOf(range, v0, v1).cost;
        if (fit.cost < 0 || cost < fit.cost) {
            fit = {cost, static_cast<int>(p)};
        }
    }
    return fit;
}

Placed PlaceGrid::blank(std::size_t index, std::size_t low, std::size_t place, Nm x0) const {
    const PlaceItem& item = (*m_items)[index];
    const BlankPose& pose =
        m_context->poses[static_cast<std::size_t>(m_fits[indexOf(index, low, place)].pose)];
    const Nm u0 = m_along.lows[low] - x0;
    Placed placed;
    placed.kind = item.kind;
    placed.rect = {Length::nanometres(u0), Length::nanometres(m_places[place]),
                   Length::nanometres(u0 + item.length),
                   Length::nanometres(m_places[place] + item.width)};
    placed.endForEnd = pose.endForEnd;
    placed.faceOver = pose.faceOver;
    return placed;
}

} // namespace stavewright::cutting
