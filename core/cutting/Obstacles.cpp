#include "core/cutting/Obstacles.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace stavewright::cutting {

bool acrossWithin(const Piece& piece, double u0, double u1, double& low, double& high) {
    if (piece.high.x <= u0 || piece.low.x >= u1) {
        return false;
    }
    if (piece.low.x >= u0 && piece.high.x <= u1) {
        low = piece.low.y;
        high = piece.high.y;
        return true;
    }
    low = std::numeric_limits<double>::infinity();
    high = -low;
    const auto take = [&](double y) {
        low = std::min(low, y);
        high = std::max(high, y);
    };
    const std::size_t count = piece.corners.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Spot& a = piece.corners[i];
        const Spot& b = piece.corners[i + 1 == count ? 0 : i + 1];
        if (a.x >= u0 && a.x <= u1) {
            take(a.y);
        }
        for (const double u : {u0, u1}) {
            if ((a.x < u && b.x > u) || (a.x > u && b.x < u)) {
                take(a.y + (u - a.x) / (b.x - a.x) * (b.y - a.y));
            }
        }
    }
    return low < high;
}

SectionPieces::SectionPieces(const BoardModel& model, const SectionShape& shape, std::size_t rules)
    : m_pieces(2 * rules)
    , m_turned(!shape.isParallel()) {
    // A turned section leans out of its crosscuts by no more than its width times its slope; taking
    // the pieces a little further out costs nothing.
    const double slack = m_turned ? static_cast<double>(shape.fullWidth()) : 0;
    const double from = static_cast<double>(shape.x0()) - slack;
    const double to = static_cast<double>(shape.x1()) + slack;
    for (std::size_t rule = 0; rule < rules; ++rule) {
        for (const bool onB : {false, true}) {
            std::vector<Piece>& here = m_pieces[2 * rule + (onB ? 1 : 0)];
            for (const Piece& piece : model.pieces(static_cast<int>(rule), onB)) {
                if (piece.high.x <= from || piece.low.x >= to) {
                    continue;
                }
                Piece local = piece;
                local.low = {std::numeric_limits<double>::infinity(),
                             std::numeric_limits<double>::infinity()};
                local.high = {-local.low.x, -local.low.y};
                for (Spot& corner : local.corners) {
                    corner = shape.toLocal(corner);
                    local.low.x = std::min(local.low.x, corner.x);
                    local.low.y = std::min(local.low.y, corner.y);
                    local.high.x = std::max(local.high.x, corner.x);
                    local.high.y = std::max(local.high.y, corner.y);
                }
                here.push_back(std::move(local));
            }
        }
    }
}

void SectionPieces::obstacles(const BlankPose& pose, Nm u0, std::vector<Obstacle>& found) const {
    const Nm margin = m_turned ? turnedMargin : 0;
    for (const PosedZone& zone : pose.zones) {
        const double from = static_cast<double>(u0 + zone.x0 - margin);
        const double to = static_cast<double>(u0 + zone.x1 + margin);
        for (const Piece& piece :
             m_pieces[2 * static_cast<std::size_t>(zone.rule) + (zone.onB ? 1 : 0)]) {
            double low = 0;
            double high = 0;
            if (!acrossWithin(piece, from, to, low, high)) {
                continue;
            }
            Obstacle obstacle;
            obstacle.below = static_cast<Nm>(std::ceil(high)) + margin - zone.y0.offset;
            obstacle.above = static_cast<Nm>(std::floor(low)) - margin - zone.y1.offset;
            obstacle.lowOnHigh = zone.y0.fromHigh;
            obstacle.highOnLow = !zone.y1.fromHigh;
            obstacle.fill = piece.fill;
            obstacle.isFill = piece.isFill;
            obstacle.defect = piece.defect;
            found.push_back(obstacle);
        }
    }
}

void SectionPieces::clearPlaces(const BlankPose& pose, std::vector<Nm>& places) const {
    const Nm margin = m_turned ? turnedMargin : 0;
    for (const PosedZone& zone : pose.zones) {
        for (const Piece& piece :
             m_pieces[2 * static_cast<std::size_t>(zone.rule) + (zone.onB ? 1 : 0)]) {
            places.push_back(static_cast<Nm>(std::ceil(piece.high.x)) + margin - zone.x0);
        }
    }
}

bool isClear(ObstacleRange obstacles, Nm v0, Nm v1) {
    return std::none_of(obstacles.begin(), obstacles.end(), [&](const Obstacle& obstacle) {
        return obstacle.isHard() && obstacle.meets(v0, v1);
    });
}

FillCount fillsOf(ObstacleRange obstacles, Nm v0, Nm v1) {
    FillCount count;
    for (const Obstacle* a = obstacles.begin(); a != obstacles.end(); ++a) {
        if (a->isHard() || !a->meets(v0, v1)) {
            continue;
        }
        bool dearest = true; // of the meetings with this defect; the first among equals
        for (const Obstacle* b = obstacles.begin(); b != obstacles.end() && a->defect >= 0; ++b) {
            if (b != a && b->defect == a->defect && !b->isHard() && b->meets(v0, v1) &&
                (b->fill > a->fill || (b->fill == a->fill && b < a))) {
                dearest = false;
                break;
            }
        }
        if (dearest) {
            count.cost += a->fill;
            count.fills += a->isFill ? 1 : 0;
        }
    }
    return count;
}

Nm lowestPlace(ObstacleRange obstacles, Nm width, Nm from, Nm top, bool avoidFills) {
    Nm v0 = from;
    bool moved = true;
    while (moved) {
        if (v0 + width > top) {
            return -1;
        }
        moved = false;
        for (const Obstacle& obstacle : obstacles) {
            if ((obstacle.isHard() || avoidFills) && obstacle.meets(v0, v0 + width)) {
                // Its low side leaves the obstacle at `below`.
                v0 = obstacle.lowOnHigh ? obstacle.below - width : obstacle.below;
                moved = true;
            }
        }
    }
    return v0;
}

namespace {

Nm onStep(const Kind& pool, Nm width) {
    const Nm step = std::max<Nm>(1, pool.step);
    return width < pool.width ? 0 : pool.width + (width - pool.width) / step * step;
}

} // namespace

Nm widestFrom(ObstacleRange obstacles, const Kind& pool, Nm v0, Nm most, bool avoidFills) {
    Nm width = onStep(pool, most);
    bool moved = true;
    while (moved && width > 0) {
        moved = false;
        for (const Obstacle& obstacle : obstacles) {
            if ((!obstacle.isHard() && !avoidFills) || !obstacle.meets(v0, v0 + width)) {
                continue;
            }
            if (obstacle.highOnLow) {
                return 0; // no width helps while the low edge stands here
            }
            width = onStep(pool, obstacle.above - v0);
            moved = true;
            if (width <= 0) {
                return 0;
            }
        }
    }
    return width;
}

Nm widestUpTo(ObstacleRange obstacles, const Kind& pool, Nm v1, Nm most, bool avoidFills) {
    Nm width = onStep(pool, most);
    bool moved = true;
    while (moved && width > 0) {
        moved = false;
        for (const Obstacle& obstacle : obstacles) {
            if ((!obstacle.isHard() && !avoidFills) || !obstacle.meets(v1 - width, v1)) {
                continue;
            }
            if (obstacle.lowOnHigh) {
                return 0; // no width helps while the high edge stands here
            }
            width = onStep(pool, v1 - obstacle.below);
            moved = true;
            if (width <= 0) {
                return 0;
            }
        }
    }
    return width;
}

Nm narrowestAt(ObstacleRange obstacles, const Kind& pool, Nm v0, Nm widest) {
    const Nm step = std::max<Nm>(1, pool.step);
    Nm width = pool.width;
    bool moved = true;
    while (moved) {
        if (width > widest) {
            return 0;
        }
        moved = false;
        for (const Obstacle& obstacle : obstacles) {
            if (!obstacle.isHard() || !obstacle.meets(v0, v0 + width)) {
                continue;
            }
            if (!obstacle.lowOnHigh) {
                return 0; // a wider stave meets it too
            }
            const Nm least = obstacle.below - v0 - pool.width;
            width = pool.width + (least + step - 1) / step * step;
            moved = true;
        }
    }
    return width;
}

WidePlace lowestWidePlace(ObstacleRange obstacles, const Kind& pool, Nm from, Nm top, Nm widest,
                          bool avoidFills) {
    Nm v0 = from;
    while (v0 + pool.width <= top) {
        const Nm width = widestFrom(obstacles, pool, v0, std::min(widest, top - v0), avoidFills);
        if (width > 0) {
            return {v0, v0 + width};
        }
        // Move past the nearest side of an obstacle.
        Nm next = std::numeric_limits<Nm>::max();
        for (const Obstacle& obstacle : obstacles) {
            if (!obstacle.isHard() && !avoidFills) {
                continue;
            }
            const Nm past = obstacle.lowOnHigh ? obstacle.below - pool.width : obstacle.below;
            if (past > v0) {
                next = std::min(next, past);
            }
        }
        if (next == std::numeric_limits<Nm>::max()) {
            break;
        }
        v0 = next;
    }
    return {};
}

} // namespace stavewright::cutting
