#include "core/cutting/RowBound.h"

#include <algorithm>
#include <bit>
#include <tuple>

#include "core/cutting/CellMost.h"

namespace stavewright::cutting {

namespace {

/// Buckets of a pool's widths that are looked at together where a strip is wider.
constexpr int chunkBuckets = 4;
/// Heights of strips that are wider than any blank are so much further apart.
constexpr int apartWhenWider = 4;
/// Width of a bucket: a quarter of an inch, or near it.
constexpr Nm bucketWidth = 6'350'000;

int stepsOfBucket(Nm step) {
    return static_cast<int>(std::max<Nm>(1, bucketWidth / std::max<Nm>(1, step)));
}
Nm widthOfBucket(Nm step) { return stepsOfBucket(step) * std::max<Nm>(1, step); }

} // namespace

RowBound::RowBound(const Lattice& lattice)
    : m_lattice(&lattice)
    , m_groups((lattice.rows() + groupRows - 1) / groupRows)
    , m_coarse((lattice.cells() + coarseCells - 1) / coarseCells) {
    const Problem& problem = *lattice.context().problem;
    m_kinds.resize(problem.kinds.size());
    m_next.begin(static_cast<std::size_t>(m_coarse) + 1);
    const auto words = static_cast<std::size_t>(lattice.words());
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Lattice::KindCells& cells = lattice.kind(k);
        const Kind& kind = problem.kinds[k];
        if (!cells.isHere) {
            continue;
        }
        if (kind.isPool) {
            findBuckets(k);
            addPool(k);
            continue;
        }
        const auto nextIn = [&](int level) {
            const std::size_t stride = static_cast<std::size_t>(m_coarse) + 1;
            std::vector<std::int16_t> next(static_cast<std::size_t>(m_groups) * stride);
            for (int g = 0; g < m_groups; ++g) {
                const int v0 = g * groupRows;
                std::int16_t* row = next.data() + static_cast<std::size_t>(g) * stride;
                row[m_coarse] = static_cast<std::int16_t>(m_coarse);
                for (int c = m_coarse; c-- > 0;) {
                    bool open = false;
                    for (int i = c * coarseCells;
                         i < std::min(lattice.cells(), (c + 1) * coarseCells) && !open; ++i) {
                        const Lattice::Word* bits =
                            cells.open[level].data() + static_cast<std::size_t>(i) * words;
                        for (int v = v0; v < std::min(lattice.rows(), v0 + groupRows) && !open;
                             ++v) {
                            open = Lattice::isSet(bits, v);
                        }
                    }
                    row[c] = open ? static_cast<std::int16_t>(c) : row[c + 1];
                }
            }
            return windowsOf(std::move(next), m_groups);
        };
        m_kinds[k].free = nextIn(0);
        for (int level = 1; level < Lattice::levels; ++level) {
            if (cells.hasLevel[level] && m_kinds[k].price == 0) {
                m_kinds[k].price = lattice.levelPrice(level);
            }
        }
        if (m_kinds[k].price > 0) {
            m_kinds[k].paid = nextIn(cells.lastLevel());
        }
    }
    m_next.settle();
    findHeights();
}

void RowBound::findBuckets(std::size_t k) {
    const Kind& kind = m_lattice->context().problem->kinds[k];
    const int widths = m_lattice->kind(k).widths;
    const int most = stepsOfBucket(kind.step);
    std::vector<int>& first = m_kinds[k].firstStep;
    for (int s = 0; s < widths; s += most) {
        first.push_back(s);
    }
    first.push_back(widths);
}

void RowBound::findHeights() {
    const Problem& problem = *m_lattice->context().problem;
    const Nm h = m_lattice->step().across;
    const Nm top = static_cast<Nm>(m_lattice->rows()) * h;
    std::vector<Nm> breaks;
    std::vector<Nm> widths; // fixed ones
    Nm apart = bucketWidth;
    Nm widest = 0;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (!m_lattice->kind(k).isHere) {
            continue;
        }
        widest = std::max(widest, kind.isPool ? kind.widest : kind.width);
        if (!kind.isPool) {
            breaks.push_back(kind.width);
            widths.push_back(kind.width);
            continue;
        }
        const Nm step = std::max<Nm>(1, kind.step);
        apart = std::max<Nm>(step, bucketWidth / step * step);
        for (const int first : m_kinds[k].firstStep) {
            breaks.push_back(kind.width + first * step);
        }
    }
    if (breaks.empty()) {
        return;
    }
    breaks.push_back(top);
    std::sort(breaks.begin(), breaks.end());
    breaks.erase(std::unique(breaks.begin(), breaks.end()), breaks.end());
    const auto add = [&](Nm low, Nm high, int carries) {
        Height height;
        height.low = low;
        height.high = high;
        height.cells = static_cast<int>(low / h);
        height.footprint = static_cast<int>((low + problem.limits.ripKerf) / h);
        height.carries = carries;
        bool grows = false;
        for (std::size_t k = 0; k < problem.kinds.size() && high > low; ++k) {
            const Kind& kind = problem.kinds[k];
            grows = grows || (kind.isPool && m_lattice->kind(k).isHere && kind.width <= low &&
                              kind.widest >= low);
        }
        height.range = static_cast<int>((high - low) / h);
        height.steps = grows ? height.range : 0;
        m_heights.push_back(height);
        if (height.steps > 0) {
            height.atHigh = true;
            m_heights.push_back(height);
        }
    };
    for (std::size_t i = 0; i + 1 < breaks.size() && breaks[i] < top; ++i) {
        Nm low = breaks[i];
        if (std::find(widths.begin(), widths.end(), low) != widths.end()) {
            // Just as wide as a kind: it needs no trimming.
            add(low, low, (low + problem.limits.ripKerf) % h != 0 ? 1 : 0);
            ++low;
        }
        for (Nm next = low; low < breaks[i + 1]; low = next) {
            // Wider than any blank they differ only in the room to avoid defects.
            const Nm by = low > widest ? apartWhenWider * apart : apart;
            next = std::min(breaks[i + 1], breaks[i] + ((low - breaks[i]) / by + 1) * by);
            add(low, next - 1, 2);
        }
    }
}

int RowBound::groupsFor(Nm play) const {
    const int up = play > 0 ? static_cast<int>(play / m_lattice->step().across) + 1 : 0;
    return std::min(m_groups, (groupRows - 1 + up) / groupRows + 1);
}

RowBound::Windows RowBound::windowsOf(std::vector<std::int16_t> next, int most) {
    Windows windows;
    const std::size_t stride = static_cast<std::size_t>(m_coarse) + 1;
    const auto groups = static_cast<std::size_t>(m_groups);
    for (int span = 1;; span *= 2) {
        std::vector<std::uint32_t>& rows = windows.byLog.emplace_back();
        std::vector<std::int16_t>& likeFrom = windows.likeFrom.emplace_back();
        for (std::size_t g = 0; g < groups; ++g) {
            const std::int16_t* here = next.data() + g * stride;
            std::size_t c = stride;
            for (const std::size_t by : {std::size_t{16}, std::size_t{1}}) {
                while (g > 0 && c >= by &&
                       std::equal(here + c - by, here + c, here + c - by - stride)) {
                    c -= by;
                }
            }
            likeFrom.push_back(static_cast<std::int16_t>(c));
            rows.push_back(c == 0 ? rows.back() : m_next.add(here));
        }
        if (2 * span > most) {
            break;
        }
        for (std::size_t g = 0; g + static_cast<std::size_t>(span) < groups; ++g) {
            std::int16_t* here = next.data() + g * stride;
            const std::int16_t* above = here + static_cast<std::size_t>(span) * stride;
            for (std::size_t c = 0; c < stride; ++c) {
                here[c] = std::min(here[c], above[c]);
            }
        }
    }
    return windows;
}

void RowBound::addPool(std::size_t k) {
    const Lattice::KindCells& cells = m_lattice->kind(k);
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const int rows = m_lattice->rows();
    const Kind& kind = m_lattice->context().problem->kinds[k];
    KindRows& mine = m_kinds[k];
    const int buckets = static_cast<int>(mine.firstStep.size()) - 1;
    const std::size_t stride = static_cast<std::size_t>(m_coarse) + 1;
    mine.price = m_lattice->levelPrice(1);
    for (const bool paid : {false, true}) {
        if (paid && mine.price <= 0) {
            continue;
        }
        const std::size_t size = static_cast<std::size_t>(m_groups) * stride;
        std::vector<std::vector<std::int16_t>> next(
            static_cast<std::size_t>(buckets),
            std::vector<std::int16_t>(size, static_cast<std::int16_t>(m_coarse)));
        // Open at a coarse cell: marked first, then turned into the next one that is.
        for (const Lattice::PoolPose& pose : cells.poses) {
            for (int i = 0; i < m_lattice->cells(); ++i) {
                const auto row = static_cast<std::size_t>(i) * words;
                const Lattice::Word* low = pose.cell.lowOpen.data() + row;
                const Lattice::Word* high = pose.cell.highOpen.data() + row;
                const std::int16_t* upTo =
                    pose.cell.upTo.at(paid ? Lattice::dearest : 0, static_cast<std::size_t>(i));
                const int coarse = i / coarseCells;
                for (int v = 0; v < rows; ++v) {
                    if (!Lattice::isSet(low, v)) {
                        continue;
                    }
                    const int most = upTo[v];
                    std::int16_t* at = nullptr;
                    for (int b = 0; b < buckets; ++b) {
                        const auto bucket = static_cast<std::size_t>(b);
                        const int first =
                            v + cells.width + mine.firstStep[bucket] * cells.stepCells;
                        if (first > most) {
                            break;
                        }
                        at = next[bucket].data() +
                             static_cast<std::size_t>(v / groupRows) * stride + coarse;
                        if (*at == coarse) {
                            continue;
                        }
                        const int last =
                            std::min(most, v + cells.width +
                                               (mine.firstStep[bucket + 1] - 1) * cells.stepCells +
                                               (cells.highCarries ? 1 : 0));
                        for (int m = first; m <= last; ++m) {
                            if (Lattice::isSet(high, m)) {
                                *at = static_cast<std::int16_t>(coarse);
                                break;
                            }
                        }
                    }
                }
            }
        }
        for (std::vector<std::int16_t>& bucket : next) {
            for (int g = 0; g < m_groups; ++g) {
                std::int16_t* row = bucket.data() + static_cast<std::size_t>(g) * stride;
                for (int c = m_coarse; c-- > 0;) {
                    row[c] = row[c] == c ? row[c] : row[c + 1];
                }
            }
        }
        std::vector<Windows>& chunks = paid ? mine.paidChunks : mine.freeChunks;
        for (int b = 0; b < buckets; b += chunkBuckets) {
            std::vector<std::int16_t> merged = next[static_cast<std::size_t>(b)];
            for (int other = b + 1; other < std::min(buckets, b + chunkBuckets); ++other) {
                for (std::size_t at = 0; at < size; ++at) {
                    merged[at] = std::min(merged[at], next[static_cast<std::size_t>(other)][at]);
                }
            }
            chunks.push_back(windowsOf(std::move(merged), m_groups));
        }
        // A bucket alone is looked at where the strip's own is in the same chunk, so only those of
        // the last chunk have more play than the chunk's widths: in strips wider than any stave.
        const int near = groupsFor(chunkBuckets * widthOfBucket(kind.step));
        std::vector<Windows>& alone = paid ? mine.paidBuckets : mine.freeBuckets;
        for (int b = 0; b < buckets; ++b) {
            const bool inLast = b / chunkBuckets == (buckets - 1) / chunkBuckets;
            alone.push_back(
                windowsOf(std::move(next[static_cast<std::size_t>(b)]), inLast ? m_groups : near));
        }
    }
}

int RowBound::PlacedArc::nextOpen(int cell) const {
    const auto coarse = static_cast<std::size_t>(cell / coarseCells);
    const int next = std::min(lowGroups[coarse], highGroups[coarse]);
    return std::max(cell, next * coarseCells);
}

RowBound::TwoWindows RowBound::windowsAt(const Arc& arc, int group) const {
    const auto count = static_cast<unsigned>(std::min(arc.groups, m_groups - group));
    const auto log = static_cast<std::size_t>(std::bit_width(count) - 1);
    const auto low = static_cast<std::size_t>(group);
    return {log, low, low + count - (std::size_t{1} << log)};
}

RowBound::PlacedArc RowBound::placed(const Arc& arc, int group) const {
    const TwoWindows at = windowsAt(arc, group);
    const std::vector<std::uint32_t>& rows = arc.windows->byLog[at.log];
    return {m_next.at(rows[at.low]),
            m_next.at(rows[at.high]),
            arc.length,
            arc.lengthEnd,
            false,
            arc.worth};
}

bool RowBound::isLikeBelow(const Arc& arc, int group, int cell) const {
    if (group == 0 || group + arc.groups > m_groups) {
        return false; // there are fewer groups than below
    }
    const TwoWindows at = windowsAt(arc, group);
    const std::vector<std::int16_t>& from = arc.windows->likeFrom[at.log];
    const int coarse = cell / coarseCells;
    return from[at.low] <= coarse && from[at.high] <= coarse;
}

std::vector<RowBound::Arc> RowBound::arcsOf(const Height& height, const BoundPrices& prices) const {
    const Problem& problem = *m_lattice->context().problem;
    const LatticeStep step = m_lattice->step();
    const EdgeSlack& slack = m_lattice->slack();
    const Nm h = step.across;
    std::vector<Arc> arcs;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        const KindRows& mine = m_kinds[k];
        if (!m_lattice->kind(k).isHere || prices.each[k] <= 0 || kind.width > height.low) {
            continue;
        }
        Arc arc{};
        arc.length = static_cast<int>(
            (kind.length + problem.limits.stripCrosscutKerf - slack.longer()) / step.along);
        arc.lengthEnd = static_cast<int>(
            (kind.length + problem.limits.crosscutKerf - slack.longer()) / step.along);
        const auto add = [&](const Windows& windows, Nm width, Cost worth) {
            if (worth <= 0 || !windows.isAny()) {
                return;
            }
            // Groups in which the low edge of a blank may lie that is so wide at least.
            arc.groups = width == height.high ? 1 : groupsFor(height.high - width);
            arc.windows = &windows;
            arc.worth = worth;
            arcs.push_back(arc);
        };
        if (!kind.isPool) {
            const Cost worth =
                prices.each[k] - (kind.width < height.low ? problem.limits.ripCost : 0);
            add(mine.free, kind.width, worth);
            add(mine.paid, kind.width, worth - mine.price);
            continue;
        }
        const Nm widthStep = std::max<Nm>(1, kind.step);
        // The widest stave that a strip has room for that is less than a cell wider than `low`.
        const std::vector<int>& first = mine.firstStep;
        const int most = std::min(first.back() - 1,
                                  static_cast<int>((height.low + h - 1 - kind.width) / widthStep));
        // The bucket of widths that it is in.
        const int own = static_cast<int>(std::upper_bound(first.begin(), first.end() - 1, most) -
                                         first.begin()) -
                        1;
        const auto addBoth = [&](const Windows& free, const Windows* paid, int narrowest,
                                 Cost worth) {
            // A bucket's staves may be any of its widths; the narrowest has most room.
            const Nm least = kind.width + narrowest * widthStep;
            add(free, least, worth);
            if (paid != nullptr) {
                add(*paid, least, worth - mine.price);
            }
        };
        const auto at = [](const std::vector<Windows>& all, int index) -> const Windows* {
            return static_cast<std::size_t>(index) < all.size()
                       ? &all[static_cast<std::size_t>(index)]
                       : nullptr;
        };
        const auto stepOf = [&](int bucket) { return first[static_cast<std::size_t>(bucket)]; };
        // Staves of its own bucket grow with the strip, by a step of width in every cell. Where
        // the steps are not cells, or the widest has been reached, the most counts from the start.
        const bool grows = height.steps > 0 && kind.widest >= height.low;
        const int last = most + height.steps;
        const int ownStep = !grows ? most : height.atHigh || widthStep != h ? last : most;
        addBoth(mine.freeBuckets[static_cast<std::size_t>(own)], at(mine.paidBuckets, own),
                stepOf(own),
                grows ? prices.between(k, ownStep, ownStep) : prices.between(k, stepOf(own), most));
        const int chunk = own / chunkBuckets;
        for (int b = chunk * chunkBuckets; b < own; ++b) {
            addBoth(mine.freeBuckets[static_cast<std::size_t>(b)], at(mine.paidBuckets, b),
                    stepOf(b), prices.between(k, stepOf(b), stepOf(b + 1) - 1));
        }
        for (int c = 0; c < chunk; ++c) {
            addBoth(
                mine.freeChunks[static_cast<std::size_t>(c)], at(mine.paidChunks, c),
                stepOf(c * chunkBuckets),
                prices.between(k, stepOf(c * chunkBuckets), stepOf((c + 1) * chunkBuckets) - 1));
        }
    }
    std::sort(arcs.begin(), arcs.end(), [](const Arc& a, const Arc& b) {
        return std::tuple(a.lengthEnd, a.length, b.worth) <
               std::tuple(b.lengthEnd, b.length, a.worth);
    });
    return arcs;
}

/// Goes once along the rows of a strip that begin at one cell or behind it.
class RowBound::Pass {
  public:
    Pass(const RowBound& rows, int cell, int ends)
        : m_rows(&rows)
        , m_cell(cell)
        , m_cells(rows.m_lattice->cells())
        , m_ends(ends)
        , m_cut(rows.m_lattice->context().problem->limits.crosscutCost) {
        m_reached.grow(m_cells - cell);
        m_ended.grow(ends - cell + 1);
    }

    /// From how many cells rows went on.
    std::size_t go(const std::vector<Arc>& arcs, int group, std::vector<RowStep>& steps) {
        // What may lie nowhere behind the first cell lies nowhere behind the others.
        m_arcs.clear();
        for (const Arc& arc : arcs) {
            PlacedArc here = m_rows->placed(arc, group);
            const int start = here.nextOpen(m_cell);
            if (start < m_cells && start + here.lengthEnd <= m_ends) {
                here.isLikeLast = !m_arcs.empty() && m_arcs.back().length == here.length &&
                                  m_arcs.back().lengthEnd == here.lengthEnd;
                m_arcs.push_back(here);
            }
        }
        // Where no other blank fits behind it, a row need not go on.
        m_lastOn = arcs.empty() ? 0 : std::min(m_cells - 1, m_ends - arcs.front().lengthEnd);
        std::size_t points = 1;
        goOn(m_cell, 0);
        Cost most = 0;
        m_reached.drain([&](int behind, Cost worth) {
            if (worth > most) {
                most = worth;
                ++points;
                goOn(m_cell + behind, worth);
            }
        });
        most = 0;
        m_ended.drain([&](int behind, Cost worth) {
            if (worth > most) {
                most = worth;
                steps.push_back({m_cell + behind, worth});
            }
        });
        return points;
    }

  private:
    void goOn(int from, Cost worth) {
        int before = m_cells; // where one as long may lie that is worth as much
        for (const PlacedArc& arc : m_arcs) {
            if (from + arc.lengthEnd > m_ends) {
                break;
            }
            const int start = arc.nextOpen(from);
            before = arc.isLikeLast ? before : m_cells;
            if (start >= before || start + arc.lengthEnd > m_ends) {
                continue;
            }
            before = start;
            if (worth > 0) {
                m_ended.raise(start + arc.lengthEnd - m_cell, worth + arc.worth);
            }
            // A cheap blank may be worth less than its cut, and still no other row holds it.
            const Cost more = std::max<Cost>(1, arc.worth - m_cut);
            if (start + arc.length <= m_lastOn) {
                m_reached.raise(start + arc.length - m_cell, worth + more);
            }
        }
    }

    const RowBound* m_rows;
    int m_cell, m_cells, m_ends;
    Cost m_cut;
    int m_lastOn = 0;
    std::vector<PlacedArc> m_arcs;
    /// By cells behind the first: what rows reach that go on there, and those that end there. Only
    /// those count that are worth more than whatever comes before them.
    CellMost m_reached, m_ended;
};

RowBound::From RowBound::from(int cell, int lastEnd, const BoundPrices& prices,
                              std::int64_t& work) const {
    From result;
    result.m_heights = m_heights.size();
    result.m_first.push_back(0);
    result.m_lastEnd = std::min(m_lattice->lastEnd(), lastEnd);
    std::vector<std::vector<Arc>> arcsByHeight;
    for (const Height& height : m_heights) {
        arcsByHeight.push_back(arcsOf(height, prices));
    }
    Pass pass(*this, cell, result.m_lastEnd);
    std::vector<RowStep> steps;
    std::vector<std::size_t> points(m_heights.size()); ///< of the last group, by height
    for (int group = 0; group < m_groups; ++group) {
        for (std::size_t h = 0; h < m_heights.size(); ++h) {
            steps.clear();
            if (group * groupRows + m_heights[h].cells < m_lattice->rows()) {
                const std::vector<Arc>& arcs = arcsByHeight[h];
                const auto isLike = [&](const Arc& arc) { return isLikeBelow(arc, group, cell); };
                if (group > 0 && std::all_of(arcs.begin(), arcs.end(), isLike)) {
                    const std::span<const RowStep> below = result.stepsOf(group - 1, h);
                    steps.assign(below.begin(), below.end());
                } else {
                    points[h] = pass.go(arcs, group, steps);
                }
                work += static_cast<std::int64_t>(points[h] * arcs.size() / 16 + 1);
            }
            result.m_steps.insert(result.m_steps.end(), steps.begin(), steps.end());
            result.m_first.push_back(static_cast<std::uint32_t>(result.m_steps.size()));
        }
    }
    return result;
}

std::span<const RowStep> RowBound::From::stepsOf(int group, std::size_t height) const {
    const std::size_t at = static_cast<std::size_t>(group) * m_heights + height;
    return std::span(m_steps).subspan(m_first[at], m_first[at + 1] - m_first[at]);
}

Cost RowBound::From::most(int group, std::size_t height, int end) const {
    return worthUpTo(stepsOf(group, height), end);
}

Cost RowBound::From::mostWithOffcut(int group, std::size_t height, int end, double perCell,
                                    int least) const {
    return worthWithOffcut(stepsOf(group, height), end, perCell, least);
}

} // namespace stavewright::cutting
