#include "core/cutting/BoardModel.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace stavewright::cutting {

namespace {

double asDouble(Length length) { return static_cast<double>(length.inNanometres()); }

double cross(const Spot& a, const Spot& b, const Spot& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

double signedArea(const std::vector<Spot>& ring) {
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Spot& a = ring[i];
        const Spot& b = ring[(i + 1) % ring.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return twice / 2;
}

bool isConvex(const std::vector<Spot>& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        if (cross(ring[i], ring[(i + 1) % ring.size()], ring[(i + 2) % ring.size()]) < 0) {
            return false;
        }
    }
    return true;
}

bool inTriangle(const Spot& p, const Spot& a, const Spot& b, const Spot& c) {
    return cross(a, b, p) >= 0 && cross(b, c, p) >= 0 && cross(c, a, p) >= 0;
}

/// Ear clipping; defects have few corners, so the cubic cost does not matter.
std::vector<std::vector<Spot>> triangles(std::vector<Spot> ring) {
    std::vector<std::vector<Spot>> result;
    while (ring.size() > 3) {
        bool clipped = false;
        for (std::size_t i = 0; i < ring.size() && !clipped; ++i) {
            const std::size_t before = (i + ring.size() - 1) % ring.size();
            const std::size_t after = (i + 1) % ring.size();
            if (cross(ring[before], ring[i], ring[after]) < 0) {
                continue;
            }
            bool holdsAnother = false;
            for (std::size_t j = 0; j < ring.size() && !holdsAnother; ++j) {
                holdsAnother = j != before && j != i && j != after &&
                               inTriangle(ring[j], ring[before], ring[i], ring[after]);
            }
            if (!holdsAnother) {
                result.push_back({ring[before], ring[i], ring[after]});
                ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
                clipped = true;
            }
        }
        if (!clipped) { // touching corners only; a fan still covers the ring
            for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
                result.push_back({ring[0], ring[i], ring[i + 1]});
            }
            return result;
        }
    }
    result.push_back(ring);
    return result;
}

} // namespace

double EdgeChain::at(Nm x) const {
    assert(!m_corners.empty());
    const auto right =
        std::lower_bound(m_corners.begin(), m_corners.end(), x, [](const Point& corner, Nm value) {
            return corner.x.inNanometres() < value;
        });
    if (right == m_corners.begin()) {
        return asDouble(right->y);
    }
    if (right == m_corners.end()) {
        return asDouble(m_corners.back().y);
    }
    if (right->x.inNanometres() == x) {
        return asDouble(right->y);
    }
    const auto left = right - 1;
    const double share =
        (static_cast<double>(x) - asDouble(left->x)) / asDouble(right->x - left->x);
    return asDouble(left->y) + share * asDouble(right->y - left->y);
}

double EdgeChain::highest(Nm x0, Nm x1) const {
    double best = std::max(at(x0), at(x1));
    for (const Point& corner : m_corners) {
        if (corner.x.inNanometres() >= x0 && corner.x.inNanometres() <= x1) {
            best = std::max(best, asDouble(corner.y));
        }
    }
    return best;
}

double EdgeChain::lowest(Nm x0, Nm x1) const {
    double best = std::min(at(x0), at(x1));
    for (const Point& corner : m_corners) {
        if (corner.x.inNanometres() >= x0 && corner.x.inNanometres() <= x1) {
            best = std::min(best, asDouble(corner.y));
        }
    }
    return best;
}

OutlineEdges outlineEdges(const Polygon& outline) {
    assert(outline.size() >= 3);
    std::vector<Spot> ring;
    ring.reserve(outline.size());
    for (const Point& corner : outline) {
        ring.push_back({asDouble(corner.x), asDouble(corner.y)});
    }
    Polygon turned = outline;
    if (signedArea(ring) < 0) {
        std::reverse(turned.begin(), turned.end());
    }
    // Counter-clockwise: from the lowest of the leftmost corners the ring runs along the near edge.
    std::size_t left = 0;
    std::size_t right = 0;
    for (std::size_t i = 1; i < turned.size(); ++i) {
        const Point& p = turned[i];
        if (p.x < turned[left].x || (p.x == turned[left].x && p.y < turned[left].y)) {
            left = i;
        }
        if (p.x > turned[right].x || (p.x == turned[right].x && p.y < turned[right].y)) {
            right = i;
        }
    }
    std::vector<Point> lower;
    for (std::size_t i = left;; i = (i + 1) % turned.size()) {
        lower.push_back(turned[i]);
        if (i == right) {
            break;
        }
    }
    std::vector<Point> upper;
    for (std::size_t i = right;; i = (i + 1) % turned.size()) {
        // Skip the corner of the near edge where the end of the board is square.
        upper.push_back(turned[i]);
        if (i == left) {
            break;
        }
    }
    std::reverse(upper.begin(), upper.end());
    while (upper.size() > 2 && upper[0].x == upper[1].x) {
        upper.erase(upper.begin());
    }
    while (upper.size() > 2 && upper[upper.size() - 1].x == upper[upper.size() - 2].x) {
        upper.pop_back();
    }
    return {EdgeChain(std::move(lower)), EdgeChain(std::move(upper))};
}

bool isBeside(const std::vector<Stretch>& taken, Nm x0, Nm x1, Nm kerf) {
    return std::all_of(taken.begin(), taken.end(), [&](const Stretch& stretch) {
        return x1 + kerf <= stretch.from.inNanometres() || x0 >= stretch.to.inNanometres() + kerf;
    });
}

std::vector<std::vector<Spot>> convexPieces(const Polygon& polygon) {
    std::vector<Spot> ring;
    ring.reserve(polygon.size());
    for (const Point& corner : polygon) {
        ring.push_back({asDouble(corner.x), asDouble(corner.y)});
    }
    if (ring.size() < 3) {
        return {};
    }
    if (signedArea(ring) < 0) {
        std::reverse(ring.begin(), ring.end());
    }
    if (isConvex(ring)) {
        return {ring};
    }
    return triangles(std::move(ring));
}

namespace {

std::vector<Piece> piecesOf(const std::vector<Block>& blocks) {
    std::vector<Piece> result;
    for (const Block& block : blocks) {
        for (std::vector<Spot>& ring : convexPieces(block.region)) {
            Piece piece;
            piece.low = piece.high = ring.front();
            for (const Spot& corner : ring) {
                piece.low.x = std::min(piece.low.x, corner.x);
                piece.low.y = std::min(piece.low.y, corner.y);
                piece.high.x = std::max(piece.high.x, corner.x);
                piece.high.y = std::max(piece.high.y, corner.y);
            }
            piece.corners = std::move(ring);
            piece.fill = block.fill.value_or(-1);
            piece.isFill = block.isFill;
            piece.defect = block.defect;
            result.push_back(std::move(piece));
        }
    }
    return result;
}

} // namespace

BoardModel::BoardModel(const Problem& problem, int index)
    : m_index(index)
    , m_board(&problem.boards[static_cast<std::size_t>(index)]) {
    m_edges = outlineEdges(m_board->outline);
    m_size.xBegin = nearEdge().corners().front().x.inNanometres();
    m_size.xEnd = nearEdge().corners().back().x.inNanometres();
    m_size.widest = widestBetween(m_edges, m_size.xBegin, m_size.xEnd);
    std::vector<Spot> ring;
    for (const Point& corner : m_board->outline) {
        ring.push_back({asDouble(corner.x), asDouble(corner.y)});
    }
    m_area = std::abs(signedArea(ring));
    for (const RuleLayer& layer : m_board->layers) {
        m_pieces.push_back(piecesOf(layer.onA));
        m_pieces.push_back(piecesOf(layer.onB));
    }

    std::vector<std::pair<Nm, Nm>> kept;
    for (const Fixed& fixed : problem.fixed) {
        if (fixed.board == index) {
            m_hasFixed = true;
            kept.emplace_back(fixed.rect.x0.inNanometres() - problem.limits.crosscutKerf,
                              fixed.rect.x1.inNanometres() + problem.limits.crosscutKerf);
        }
    }
    std::sort(kept.begin(), kept.end());
    Nm from = m_size.xBegin + m_board->trimAtDatum;
    const Nm end = m_size.xEnd - m_board->trimAtFar;
    const auto keep = [&](Nm a, Nm b) {
        if (b > a) {
            m_free.push_back({Length::nanometres(a), Length::nanometres(b)});
        }
    };
    for (const auto& [a, b] : kept) {
        keep(from, std::min(a, end));
        from = std::max(from, b);
    }
    keep(from, end);
}

const std::vector<Piece>& BoardModel::pieces(int rule, bool onB) const {
    static const std::vector<Piece> none;
    const std::size_t at = 2 * static_cast<std::size_t>(rule) + (onB ? 1 : 0);
    return at < m_pieces.size() ? m_pieces[at] : none;
}

} // namespace stavewright::cutting
