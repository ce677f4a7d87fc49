#include "core/cutting/Lattice.h"

#include <algorithm>
#include <cmath>

#include "core/cutting/FreeWidths.h"
#include "core/cutting/Obstacles.h"

namespace stavewright::cutting {

namespace {

Nm floorDiv(Nm a, Nm b) { return a >= 0 ? a / b : -((-a + b - 1) / b); }

void setRange(Lattice::Word* bits, int from, int to, int rows) {
    from = std::max(from, 0);
    to = std::min(to, rows - 1);
    for (int bit = from; bit <= to;) {
        const int last = std::min(to, bit | 63);
        const int count = last - bit + 1;
        const Lattice::Word mask =
            count == 64 ? ~Lattice::Word{0} : ((Lattice::Word{1} << count) - 1) << (bit & 63);
        bits[bit >> 6] |= mask;
        bit = last + 1;
    }
}

using Bar = FreeWidths::Bar;

/// Shuts the cells of which no height at all is free; `bars` are put in order for it. Two that
/// leave less than a cell between them leave a cell only where the free heights are in it.
void shut(std::vector<Bar>& bars, Nm step, Lattice::Word* bits, int rows) {
    std::sort(bars.begin(), bars.end(),
              [](const Bar& a, const Bar& b) { return a.above < b.above; });
    for (std::size_t i = 0; i < bars.size();) {
        const Nm above = bars[i].above;
        Nm below = bars[i].below;
        for (++i; i < bars.size() && bars[i].above < below; ++i) {
            below = std::max(below, bars[i].below);
        }
        setRange(bits, static_cast<int>(std::max<Nm>(-1, floorDiv(above, step)) + 1),
                 static_cast<int>(std::min<Nm>(rows, floorDiv(below - step, step))), rows);
    }
}

/// A block as it meets a blank whose low end lies in one cell: the blank is met for sure while its
/// edges satisfy both; heights above the near edge.
struct Met {
    Nm below = 0;
    Nm above = 0;
    bool lowOnHigh = false;
    bool highOnLow = false;
    Cost fill = -1;
    int defect = -1;
};

} // namespace

Nm stepAcross(const Problem& problem) {
    Nm step = 0;
    for (const Kind& kind : problem.kinds) {
        if (kind.isPool && kind.step > 0) {
            step = step == 0 ? kind.step : std::min(step, kind.step);
        }
    }
    return step > 0 ? step : 1'587'500;
}

Lattice::Lattice(const Context& context, const BoardModel& model, const Stretch& stretch,
                 LatticeStep step, EdgeSlack slack)
    : m_context(&context)
    , m_model(&model)
    , m_begin(stretch.from.inNanometres())
    , m_end(stretch.to.inNanometres())
    , m_step(step)
    , m_slack(std::move(slack)) {
    m_cells = static_cast<int>((m_end - m_begin) / step.along) + 1;
    double highest = 0;
    for (int i = 0; i < m_cells; ++i) {
        // Highest inside the cell: at its ends or at a corner.
        const Nm from = xOf(i);
        const Nm to = std::min(m_end, xOf(i + 1));
        const double height = static_cast<double>(widestBetween(model.edges(), from, to));
        m_height.push_back(static_cast<Nm>(height));
        highest = std::max(highest, height);
        m_raisedAt.push_back(m_slack.sureOver(static_cast<double>(from), static_cast<double>(to)));
    }
    m_rows = static_cast<int>(static_cast<Nm>(highest) / step.across) + 2;
    m_words = (m_rows + 63) / 64;

    std::vector<Cost> fills;
    for (std::size_t rule = 0; rule < context.rules; ++rule) {
        for (const bool onB : {false, true}) {
            std::vector<Straight> straight;
            for (const Piece& piece : model.pieces(static_cast<int>(rule), onB)) {
                if (piece.high.x <= static_cast<double>(m_begin) ||
                    piece.low.x >= static_cast<double>(m_end)) {
                    continue;
                }
                if (piece.fill > 0) {
                    fills.push_back(piece.fill);
                }
                straight.push_back(straightened(piece));
            }
            m_straight.push_back(std::move(straight));
        }
    }
    findLevels(std::move(fills));

    const Problem& problem = *context.problem;
    m_kinds.resize(problem.kinds.size());
    for (std::size_t k = 0; k < m_kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        KindCells& cells = m_kinds[k];
        if (!suits(kind, model.board()) || kind.demand <= 0 || kind.length > m_end - m_begin ||
            kind.width > static_cast<Nm>(highest)) {
            continue;
        }
        cells.isHere = true;
        cells.length = cellsOf(kind.length + problem.limits.stripCrosscutKerf);
        cells.width = static_cast<int>(kind.width / step.across);
        cells.footprint = static_cast<int>((kind.width + problem.limits.ripKerf) / step.across);
        if (kind.isPool) {
            const Nm widthStep = std::max<Nm>(1, kind.step);
            cells.stepCells = static_cast<int>(std::max<Nm>(1, widthStep / step.across));
            cells.widths = static_cast<int>((kind.widest - kind.width) / widthStep) + 1;
            cells.highCarries = kind.width % step.across != 0 || widthStep % step.across != 0;
        } else {
            for (std::vector<Word>& open : cells.open) {
                open.assign(static_cast<std::size_t>(m_cells) * static_cast<std::size_t>(m_words),
                            0);
            }
        }
    }
    for (const BlankPose& pose : context.poses) {
        KindCells& cells = m_kinds[static_cast<std::size_t>(pose.kind)];
        if (cells.isHere) {
            addPose(pose, cells);
        }
    }
    m_straight = {}; // hundreds of lattices may be kept
    m_raisedAt = {};
    // Dearer levels hold the cheaper ones too.
    for (KindCells& cells : m_kinds) {
        if (!cells.isHere) {
            continue;
        }
        for (int level = 1; cells.poses.empty() && level < levels; ++level) {
            for (std::size_t w = 0; w < cells.open[level].size(); ++w) {
                cells.hasLevel[level] = cells.hasLevel[level] ||
                                        (cells.open[level][w] & ~cells.open[level - 1][w]) != 0;
                cells.open[level][w] |= cells.open[level - 1][w];
            }
        }
        fillBlocks(cells);
        if (!m_step.roomy) {
            findChanges(cells);
        }
        for (int level = 1; level < levels; ++level) {
            if (!cells.hasLevel[level]) {
                cells.open[level] = {};
                cells.block[level] = {};
            }
        }
        for (PoolPose& pose : cells.poses) {
            pose.cell.upTo.pack(static_cast<std::size_t>(m_rows));
            pose.block.upTo.pack(static_cast<std::size_t>(m_rows));
        }
    }
}

void Lattice::findLevels(std::vector<Cost> fills) {
    if (fills.empty()) {
        return;
    }
    // Of what one or two fills come to the cheapest, and always the next that is dearer by so much:
    // what a blank pays is rounded down to a level.
    constexpr Cost percentDearer = 135;
    std::sort(fills.begin(), fills.end());
    fills.erase(std::unique(fills.begin(), fills.end()), fills.end());
    std::vector<Cost> sums = fills;
    for (const Cost a : fills) {
        for (const Cost b : fills) {
            sums.push_back(a + b);
        }
    }
    std::sort(sums.begin(), sums.end());
    Cost least = 1;
    for (int level = 1; level < levels; ++level) {
        const auto next = std::lower_bound(sums.begin(), sums.end(), least);
        m_levelPrice[level] = next != sums.end() ? *next : least;
        least = m_levelPrice[level] * percentDearer / 100 + 1;
    }
}

void Lattice::findChanges(KindCells& cells) const {
    const auto words = static_cast<std::size_t>(m_words);
    const auto rows = static_cast<std::size_t>(m_rows);
    const auto isLikeBefore = [](const auto& all, std::size_t i, std::size_t size) {
        const auto here = all.begin() + static_cast<std::ptrdiff_t>(i * size);
        return std::equal(here, here + static_cast<std::ptrdiff_t>(size),
                          here - static_cast<std::ptrdiff_t>(size));
    };
    for (std::size_t i = 0; i < static_cast<std::size_t>(m_cells); ++i) {
        bool same = i > 0;
        for (int level = 0; level < levels && cells.poses.empty(); ++level) {
            same = same && isLikeBefore(cells.open[level], i, words);
        }
        for (const PoolPose& pose : cells.poses) {
            same = same && isLikeBefore(pose.cell.lowOpen, i, words) &&
                   isLikeBefore(pose.cell.highOpen, i, words);
            for (std::size_t level = 0; level < levels && same; ++level) {
                same = isLikeBefore(pose.cell.upTo.whole(level), i, rows);
            }
        }
        if (!same) {
            cells.changes.push_back(static_cast<std::int16_t>(i));
        }
    }
}

void Lattice::fillBlocks(KindCells& cells) const {
    const auto words = static_cast<std::size_t>(m_words);
    const auto rows = static_cast<std::size_t>(m_rows);
    const auto either = [&](const std::vector<Word>& cell, std::vector<Word>& block) {
        block.assign(static_cast<std::size_t>(blocks()) * words, 0);
        for (std::size_t i = 0; i < static_cast<std::size_t>(m_cells); ++i) {
            for (std::size_t w = 0; w < words; ++w) {
                block[i / blockCells * words + w] |= cell[i * words + w];
            }
        }
    };
    for (int level = 0; level < levels && cells.poses.empty(); ++level) {
        either(cells.open[level], cells.block[level]);
    }
    if (m_step.roomy && cells.poses.empty() && 2 * cells.length <= m_cells) {
        const auto along = static_cast<std::size_t>(m_cells);
        cells.next.resize(rows * (along + 1));
        cells.isLikeBelow.resize(rows);
        for (std::size_t m = 0; m < rows; ++m) {
            std::int16_t* next = cells.next.data() + m * (along + 1);
            next[along] = static_cast<std::int16_t>(m_cells);
            for (std::size_t i = along; i-- > 0;) {
                const bool open = (cells.open[levels - 1][i * words + m / 64] >> (m % 64) & 1) != 0;
                next[i] = open ? static_cast<std::int16_t>(i) : next[i + 1];
            }
            cells.isLikeBelow[m] = m > 0 && std::equal(next, next + along, next - along - 1);
        }
    }
    for (PoolPose& pose : cells.poses) {
        either(pose.cell.lowOpen, pose.block.lowOpen);
        either(pose.cell.highOpen, pose.block.highOpen);
        const auto highest = [&](const std::vector<std::int16_t>& cell,
                                 std::vector<std::int16_t>& block) {
            block.assign(static_cast<std::size_t>(blocks()) * rows, 0);
            for (std::size_t i = 0; i < static_cast<std::size_t>(m_cells); ++i) {
                for (std::size_t m = 0; m < rows; ++m) {
                    std::int16_t& most = block[i / blockCells * rows + m];
                    most = std::max(most, cell[i * rows + m]);
                }
            }
        };
        for (std::size_t level = m_step.roomy ? dearest : 0; level < levels; ++level) {
            highest(pose.cell.upTo.whole(level), pose.block.upTo.whole(level));
        }
    }
}

Lattice::Straight Lattice::straightened(const Piece& piece) const {
    const double from = piece.low.x;
    const double length = std::max(1.0, piece.high.x - from);
    const EdgeSlack::Lines edges = m_slack.over(from, piece.high.x);
    Straight straight{piece, piece};
    for (std::size_t c = 0; c < piece.corners.size(); ++c) {
        const Spot& corner = piece.corners[c];
        const double y = corner.y - m_model->nearEdge().at(static_cast<Nm>(corner.x));
        const double part = (corner.x - from) / length;
        straight.lowest.corners[c].y = y - edges.highest.at(part);
        straight.highest.corners[c].y = y - edges.lowest.at(part);
    }
    for (Piece* side : {&straight.lowest, &straight.highest}) {
        const auto [low, high] =
            std::minmax_element(side->corners.begin(), side->corners.end(),
                                [](const Spot& a, const Spot& b) { return a.y < b.y; });
        side->low.y = low->y;
        side->high.y = high->y;
    }
    return straight;
}

template <class Visit>
void Lattice::visitBlocks(const BlankPose& pose, const Visit& visit) const {
    // A blank that reaches the end of the stretch has no more than this of its cell to begin in.
    const Nm lastBegin = m_end -
                         m_context->problem->kinds[static_cast<std::size_t>(pose.kind)].length +
                         m_slack.left();
    for (const PosedZone& zone : pose.zones) {
        const std::size_t layer = 2 * static_cast<std::size_t>(zone.rule) + (zone.onB ? 1 : 0);
        for (std::size_t p = 0; p < m_straight[layer].size(); ++p) {
            const auto& [piece, highest] = m_straight[layer][p];
            // A blank with its low end anywhere in cell i, but no later than lastBegin, has the
            // zone over at least [x(i + 1) - 1 + zone.x0, x(i) + zone.x1], less the slack.
            const Nm zoneFrom = zone.x0 + m_slack.right();
            const Nm zoneTo = zone.x1 - m_slack.left();
            const Nm first =
                floorDiv(static_cast<Nm>(std::floor(piece.low.x)) - zoneTo - m_begin, m_step.along);
            const Nm last = floorDiv(static_cast<Nm>(std::ceil(piece.high.x)) - zoneFrom - m_begin,
                                     m_step.along);
            for (Nm i = std::max<Nm>(0, first); i <= std::min<Nm>(m_cells - 1, last); ++i) {
                const Nm begin = m_begin + (i + 1) * m_step.along - 1;
                const auto from = static_cast<double>(std::min(begin, lastBegin) + zoneFrom);
                const double to = static_cast<double>(m_begin + i * m_step.along + zoneTo);
                double low = highest.low.y;
                double high = piece.high.y;
                if (from > piece.low.x || to < piece.high.x) {
                    double other = 0;
                    if (from >= to || !acrossWithin(piece, from, to, other, high) ||
                        !acrossWithin(highest, from, to, low, other)) {
                        continue;
                    }
                }
                Met met;
                met.below = static_cast<Nm>(std::ceil(high)) - zone.y0.offset;
                met.above = static_cast<Nm>(std::floor(low)) - zone.y1.offset;
                met.lowOnHigh = zone.y0.fromHigh;
                met.highOnLow = !zone.y1.fromHigh;
                met.fill = piece.fill;
                met.defect = piece.defect;
                visit(static_cast<int>(i), met);
            }
        }
    }
}

void Lattice::addPose(const BlankPose& pose, KindCells& cells) {
    const auto k = static_cast<std::size_t>(pose.kind);
    const Kind& kind = m_context->problem->kinds[k];
    const Nm h = m_step.across;
    // Lowest height over a blank that begins in the cell: over what it covers for sure.
    std::vector<Nm> top(static_cast<std::size_t>(m_cells));
    for (int i = 0; i < m_cells; ++i) {
        const Nm from = std::min(m_end, xOf(i + 1) + m_slack.right());
        const Nm to = std::min(m_end, xOf(i) + kind.length - m_slack.left());
        Nm lowest = m_slack.right() == 0 ? m_height[static_cast<std::size_t>(i)]
                                         : static_cast<Nm>(m_rows) * h;
        if (xOf(i) + kind.length > m_end) {
            lowest = 0;
        } else if (from < to) {
            const auto heightAt = [&](Nm x) {
                const auto cell = std::min<std::size_t>(
                    m_raisedAt.size() - 1, static_cast<std::size_t>((x - m_begin) / m_step.along));
                return static_cast<Nm>(
                           std::ceil(m_model->farEdge().at(x) - m_model->nearEdge().at(x))) -
                       m_raisedAt[cell];
            };
            lowest = std::min({lowest, heightAt(from), heightAt(to)});
            for (const EdgeChain* chain : {&m_model->edges().nearEdge, &m_model->edges().farEdge}) {
                for (const Point& corner : chain->corners()) {
                    const Nm x = corner.x.inNanometres();
                    if (x > from && x < to) {
                        lowest = std::min(lowest, heightAt(x));
                    }
                }
            }
        }
        top[static_cast<std::size_t>(i)] = lowest;
    }
    const auto row = [&](int i) {
        return static_cast<std::size_t>(i) * static_cast<std::size_t>(m_words);
    };

    if (!kind.isPool) {
        std::vector<Word> blocked(static_cast<std::size_t>(m_words));
        std::vector<Word> fits(static_cast<std::size_t>(m_words));
        struct Soft {
            int from, to, defect;
            Cost fill;
        };
        std::vector<std::vector<Soft>> soft(static_cast<std::size_t>(m_cells));
        std::vector<std::vector<Bar>> hard(static_cast<std::size_t>(m_cells));
        visitBlocks(pose, [&](int i, const Met& met) {
            // The low edge v is met while above < v < below.
            const Nm below = met.lowOnHigh ? met.below - kind.width : met.below;
            const Nm above = met.highOnLow ? met.above : met.above - kind.width;
            if (met.fill < 0) {
                hard[static_cast<std::size_t>(i)].push_back({above, below});
                return;
            }
            const int from = static_cast<int>(floorDiv(above, h) + 1);
            const int to = static_cast<int>(floorDiv(below - h, h));
            if (met.fill > 0 && to >= 0 && from <= to) {
                soft[static_cast<std::size_t>(i)].push_back({from, to, met.defect, met.fill});
            }
        });
        std::vector<Cost> price(static_cast<std::size_t>(m_rows));
        for (int i = 0; i < m_cells; ++i) {
            const Nm room = top[static_cast<std::size_t>(i)] - kind.width;
            if (room < 0) {
                continue;
            }
            const int highest = static_cast<int>(room / h);
            std::fill(fits.begin(), fits.end(), 0);
            setRange(fits.data(), 0, highest, m_rows);
            std::vector<Bar>& bars = hard[static_cast<std::size_t>(i)];
            bars.push_back({room, room + 2 * h}); // what is higher does not fit anyway
            std::fill(blocked.begin(), blocked.end(), 0);
            shut(bars, h, blocked.data(), m_rows);
            for (std::size_t w = 0; w < fits.size(); ++w) {
                fits[w] &= ~blocked[w];
            }
            std::vector<Soft>& here = soft[static_cast<std::size_t>(i)];
            if (here.empty()) {
                for (int w = 0; w < m_words; ++w) {
                    cells.open[0][row(i) + static_cast<std::size_t>(w)] |=
                        fits[static_cast<std::size_t>(w)];
                }
                continue;
            }
            std::fill(price.begin(), price.end(), 0);
            for (std::size_t a = 0; a < here.size(); ++a) {
                for (int m = std::max(0, here[a].from); m <= std::min(m_rows - 1, here[a].to);
                     ++m) {
                    // One block of each defect is enough; the first.
                    bool first = true;
                    for (std::size_t b = 0; b < a && first && here[a].defect >= 0; ++b) {
                        first =
                            here[b].defect != here[a].defect || m < here[b].from || m > here[b].to;
                    }
                    price[static_cast<std::size_t>(m)] += first ? here[a].fill : 0;
                }
            }
            for (int m = 0; m <= std::min(highest, m_rows - 1); ++m) {
                const Word bit = Word{1} << (m & 63);
                if ((fits[static_cast<std::size_t>(m >> 6)] & bit) == 0) {
                    continue;
                }
                int level = 0;
                while (level + 1 < levels && m_levelPrice[level + 1] > 0 &&
                       price[static_cast<std::size_t>(m)] >= m_levelPrice[level + 1]) {
                    ++level;
                }
                cells.open[level][row(i) + static_cast<std::size_t>(m >> 6)] |= bit;
            }
        }
        return;
    }

    PoolPose mine;
    const std::size_t all = static_cast<std::size_t>(m_cells) * static_cast<std::size_t>(m_words);
    std::vector<Word> lowShut(all, 0);
    std::vector<Word> highShut(all, 0);
    std::vector<std::int16_t>& most = mine.cell.upTo.whole(dearest);
    most.resize(static_cast<std::size_t>(m_cells) * static_cast<std::size_t>(m_rows));
    /// What must be paid for once the low edge is at most lowTo and the high edge above upTo.
    struct Soft {
        int lowTo, upTo, defect;
        Cost fill;
    };
    std::vector<std::vector<Soft>> soft(static_cast<std::size_t>(m_cells));
    struct Bars {
        std::vector<Bar> held, low, high; ///< for a stave, and for its edges alone
    };
    std::vector<Bars> bars(static_cast<std::size_t>(m_cells));
    visitBlocks(pose, [&](int i, const Met& met) {
        if (met.fill >= 0) {
            if (met.fill > 0 && !met.lowOnHigh && !met.highOnLow) {
                soft[static_cast<std::size_t>(i)].push_back(
                    {static_cast<int>(floorDiv(met.below - h, h)),
                     static_cast<int>(floorDiv(met.above, h)), met.defect, met.fill});
            }
            return;
        }
        Bars& here = bars[static_cast<std::size_t>(i)];
        const Bar bar{met.above, met.below};
        if (!met.lowOnHigh && met.highOnLow) {
            here.low.push_back(bar);
        } else if (met.lowOnHigh && !met.highOnLow) {
            here.high.push_back(bar);
        } else if (!met.lowOnHigh) {
            here.held.push_back(bar);
        }
    });
    FreeWidths widths;
    for (int i = 0; i < m_cells; ++i) {
        auto& [held, low, high] = bars[static_cast<std::size_t>(i)];
        shut(low, h, lowShut.data() + row(i), m_rows);
        shut(high, h, highShut.data() + row(i), m_rows);
        widths.highest(held, low, top[static_cast<std::size_t>(i)], h,
                       {most.data() + static_cast<std::ptrdiff_t>(i) * m_rows,
                        static_cast<std::size_t>(m_rows)});
    }
    if (!m_step.roomy) {
        for (std::size_t level = 0; level < dearest; ++level) {
            mine.cell.upTo.whole(level) = most;
        }
        for (int i = 0; i < m_cells; ++i) {
            std::vector<Soft>& here = soft[static_cast<std::size_t>(i)];
            std::sort(here.begin(), here.end(),
                      [](const Soft& a, const Soft& b) { return a.upTo < b.upTo; });
            for (int m = 0; m < m_rows && !here.empty(); ++m) {
                Cost paid = 0;
                const auto at = static_cast<std::size_t>(i) * static_cast<std::size_t>(m_rows) +
                                static_cast<std::size_t>(m);
                std::size_t cheap = 0; // levels whose next one costs no more than is paid
                for (std::size_t a = 0; a < here.size() && cheap < dearest; ++a) {
                    bool first = m <= here[a].lowTo;
                    for (std::size_t b = 0; b < a && first && here[a].defect >= 0; ++b) {
                        first = here[b].defect != here[a].defect || m > here[b].lowTo;
                    }
                    if (!first) {
                        continue;
                    }
                    paid += here[a].fill;
                    const auto limit = static_cast<std::int16_t>(std::max(0, here[a].upTo));
                    for (; cheap < dearest && paid >= m_levelPrice[cheap + 1]; ++cheap) {
                        std::int16_t& reach = mine.cell.upTo.whole(cheap)[at];
                        reach = std::min(reach, limit);
                    }
                }
            }
        }
    }
    mine.cell.lowOpen.resize(all);
    mine.cell.highOpen.resize(all);
    for (std::size_t w = 0; w < all; ++w) {
        mine.cell.lowOpen[w] = ~lowShut[w];
        mine.cell.highOpen[w] = ~highShut[w];
    }
    cells.poses.push_back(std::move(mine));
}

} // namespace stavewright::cutting
