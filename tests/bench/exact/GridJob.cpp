#include "GridJob.h"

#include <algorithm>
#include <map>

namespace stavewright::cutting::exact {

namespace {

struct Span {
    Nm low = 0, high = 0;
    [[nodiscard]] Span mirroredIn(Nm extent) const { return {extent - high, extent - low}; }
    [[nodiscard]] bool meets(Span other) const { return low < other.high && other.low < high; }
};

/// Box of an axis-parallel rectangle; nothing for any other polygon.
std::optional<std::pair<Span, Span>> rectangle(const Polygon& polygon) {
    if (polygon.size() != 4) {
        return std::nullopt;
    }
    std::vector<Nm> x;
    std::vector<Nm> y;
    for (const Point& corner : polygon) {
        x.push_back(corner.x.inNanometres());
        y.push_back(corner.y.inNanometres());
    }
    const auto [x0, x1] = std::minmax_element(x.begin(), x.end());
    const auto [y0, y1] = std::minmax_element(y.begin(), y.end());
    for (std::size_t i = 0; i < 4; ++i) {
        if ((x[i] != *x0 && x[i] != *x1) || (y[i] != *y0 && y[i] != *y1)) {
            return std::nullopt;
        }
    }
    return std::pair{Span{*x0, *x1}, Span{*y0, *y1}};
}

} // namespace

std::optional<GridJob> GridJob::on(const Problem& problem, Nm unit) {
    GridJob job(problem, unit);
    if (!job.read()) {
        return std::nullopt;
    }
    job.findLies();
    return job;
}

bool GridJob::toGrid(Nm length, int& units) const {
    units = static_cast<int>(length / m_unit);
    return length % m_unit == 0;
}

bool GridJob::read() {
    const Limits& limits = m_problem->limits;
    if (!m_problem->fixed.empty() || limits.jointerWidth != 0 || limits.leastFacedLength != 0 ||
        limits.offcutWorthPercent != 0 || !toGrid(limits.crosscutKerf, m_crosscutKerf) ||
        !toGrid(limits.ripKerf, m_ripKerf) || !toGrid(limits.stripCrosscutKerf, m_stripKerf) ||
        !toGrid(limits.narrowestRip, m_narrowestRip)) {
        return false;
    }
    for (const Board& board : m_problem->boards) {
        if (!readBoard(board)) {
            return false;
        }
    }
    for (std::size_t k = 0; k < m_problem->kinds.size(); ++k) {
        if (!readKind(k)) {
            return false;
        }
    }
    return true;
}

bool GridJob::readBoard(const Board& board) {
    const auto outline = rectangle(board.outline);
    GridBoard grid;
    int trimAtFar = 0;
    if (!outline || outline->first.low != 0 || outline->second.low != 0 || board.bow != 0 ||
        board.cup != 0 || board.twist != 0 || !toGrid(outline->first.high, grid.length) ||
        !toGrid(outline->second.high, grid.width) || !toGrid(board.trimAtDatum, grid.first) ||
        !toGrid(board.trimAtFar, trimAtFar)) {
        return false;
    }
    grid.last = grid.length - trimAtFar;
    for (const RuleLayer& layer : board.layers) {
        for (const std::vector<Block>* face : {&layer.onA, &layer.onB}) {
            for (const Block& block : *face) {
                const auto box = rectangle(block.region);
                int ignored = 0;
                if (!box || !toGrid(box->first.low, ignored) || !toGrid(box->first.high, ignored) ||
                    !toGrid(box->second.low, ignored) || !toGrid(box->second.high, ignored)) {
                    return false;
                }
            }
        }
    }
    m_boards.push_back(grid);
    return true;
}

bool GridJob::readKind(std::size_t index) {
    const Kind& kind = m_problem->kinds[index];
    Item item;
    item.kind = static_cast<int>(index);
    if (!toGrid(kind.length, item.length)) {
        return false;
    }
    if (kind.isPool && kind.demand > 1) {
        return false; // one panel: its staves need not be shared out
    }
    const Nm widest = kind.isPool ? kind.widest : kind.width;
    for (Nm width = kind.width; width <= widest; width += std::max<Nm>(1, kind.step)) {
        if (!toGrid(width, item.width) || !toGrid(width - kind.jointAllowance, item.net)) {
            return false;
        }
        m_items.push_back(item);
        if (!kind.isPool) {
            break;
        }
    }
    for (const Zone& zone : kind.zones) {
        int ignored = 0;
        for (const Mark& mark : {zone.x0, zone.x1, zone.y0, zone.y1}) {
            if (!toGrid(mark.offset, ignored)) {
                return false;
            }
        }
    }
    return true;
}

std::optional<Lie> GridJob::cheapestLie(const Board& board, const Item& item, int x, int y) const {
    const Kind& kind = kindOf(item);
    const Nm length = item.length * m_unit;
    const Nm width = item.width * m_unit;
    if (kind.material != board.material || board.thinnest - board.cleaning < kind.thickness ||
        (kind.thickest > 0 && board.thinnest > kind.thickest)) {
        return std::nullopt;
    }
    std::optional<Lie> best;
    for (const bool faceOver : {false, true}) {
        for (const bool endForEnd : {false, true}) {
            if ((faceOver && !kind.mayFaceOver) || (endForEnd && !kind.mayTurn)) {
                continue;
            }
            bool allowed = true;
            Lie lie{0, endForEnd, faceOver};
            std::map<int, Cost> paid; // by defect: its dearest meeting with this blank
            for (const Zone& zone : kind.zones) {
                Span along{std::max<Nm>(0, zone.x0.in(length)),
                           std::min(length, zone.x1.in(length))};
                Span across{zone.y0.in(width), zone.y1.in(width)};
                bool onB = zone.onB;
                if (endForEnd) { // half a turn in the plane of the board
                    along = along.mirroredIn(length);
                    across = across.mirroredIn(width);
                }
                if (faceOver) { // rolled over its long axis
                    across = across.mirroredIn(width);
                    onB = !onB;
                }
                along = {along.low + x * m_unit, along.high + x * m_unit};
                across = {across.low + y * m_unit, across.high + y * m_unit};
                if (along.low >= along.high || across.low >= across.high) {
                    continue;
                }
                const RuleLayer& layer = board.layers.at(static_cast<std::size_t>(zone.rule));
                for (const Block& block : onB ? layer.onB : layer.onA) {
                    const auto box = *rectangle(block.region);
                    if (!box.first.meets(along) || !box.second.meets(across)) {
                        continue;
                    }
                    if (!block.fill) {
                        allowed = false;
                    } else if (block.defect < 0) {
                        lie.fills += *block.fill;
                    } else {
                        paid[block.defect] = std::max(paid[block.defect], *block.fill);
                    }
                }
            }
            for (const auto& [defect, cost] : paid) {
                lie.fills += cost;
            }
            if (allowed && (!best || lie.fills < best->fills)) {
                best = lie;
            }
        }
    }
    return best;
}

void GridJob::findLies() {
    m_lies.resize(m_boards.size());
    for (std::size_t b = 0; b < m_boards.size(); ++b) {
        const GridBoard& board = m_boards[b];
        m_lies[b].resize(m_items.size());
        for (std::size_t i = 0; i < m_items.size(); ++i) {
            for (int x = 0; x < board.length; ++x) {
                for (int y = 0; y < board.width; ++y) {
                    const bool inside = x + m_items[i].length <= board.length &&
                                        y + m_items[i].width <= board.width;
                    m_lies[b][i].push_back(inside
                                               ? cheapestLie(m_problem->boards[b], m_items[i], x, y)
                                               : std::nullopt);
                }
            }
        }
    }
}

const std::optional<Lie>& GridJob::lie(std::size_t board, std::size_t item, int x, int y) const {
    return m_lies[board][item].at(static_cast<std::size_t>(x * m_boards[board].width + y));
}

std::vector<int> GridJob::lowEdges(const Item& item, int y0, int y1) const {
    const int spare = y1 - y0 - item.width;
    if (spare < 0) {
        return {};
    }
    if (spare == 0) {
        return {y0};
    }
    if (spare < m_ripKerf || item.width < m_narrowestRip) {
        return {};
    }
    return {y0, y1 - item.width};
}

bool GridJob::isComplete(const Kind& pool, int net, int staves) const {
    const Nm sum = net * m_unit;
    return sum >= pool.netWanted && sum <= pool.netMost && staves >= pool.fewest &&
           staves <= pool.most;
}

Cost GridJob::panelPenalty(const Kind& pool, int net, int staves) const {
    if (isComplete(pool, net, staves)) {
        return 0;
    }
    const Nm missing = std::max(std::max<Nm>(1, pool.step), pool.netWanted - net * m_unit);
    return static_cast<Cost>(static_cast<double>(pool.penaltyUnplaced) *
                             static_cast<double>(missing) / static_cast<double>(pool.netWanted));
}

} // namespace stavewright::cutting::exact
