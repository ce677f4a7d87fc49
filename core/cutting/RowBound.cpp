#include "core/cutting/RowBound.h"

#include <algorithm>
#include <bit>
#include <limits>

namespace stavewright::cutting {

namespace {

/// Buckets of a pool's widths that are looked at together where a strip is wider.
constexpr int chunkBuckets = 4;
/// Width of a bucket: a quarter of an inch, or near it.
constexpr Nm bucketWidth = 6'350'000;

bool isSet(const Lattice::Word* bits, int at) { return (bits[at >> 6] >> (at & 63) & 1) != 0; }

} // namespace

BoundPrices::BoundPrices(const Problem& problem, const Values& values)
    : each(problem.kinds.size(), 0)
    , byWidth(problem.kinds.size()) {
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (!kind.isPool) {
            each[k] = values.of(kind, k, kind.width);
            continue;
        }
        for (Nm width = kind.width; width <= kind.widest; width += std::max<Nm>(1, kind.step)) {
            byWidth[k].push_back(values.of(kind, k, width));
        }
        each[k] = byWidth[k].empty() ? 0 : *std::max_element(byWidth[k].begin(), byWidth[k].end());
    }
}

Cost BoundPrices::between(std::size_t pool, int first, int last) const {
    // Linear in the width, so the most stands at one end.
    const std::vector<Cost>& worth = byWidth[pool];
    if (worth.empty()) {
        return 0;
    }
    const int most = static_cast<int>(worth.size()) - 1;
    return std::max(worth[static_cast<std::size_t>(std::clamp(first, 0, most))],
                    worth[static_cast<std::size_t>(std::clamp(last, 0, most))]);
}

RowBound::RowBound(const Lattice& lattice)
    : m_lattice(&lattice)
    , m_groups((lattice.rows() + groupRows - 1) / groupRows)
    , m_coarse((lattice.cells() + coarseCells - 1) / coarseCells) {
    const Problem& problem = *lattice.context().problem;
    const Nm h = lattice.step().across;
    m_kinds.resize(problem.kinds.size());
    const auto words = static_cast<std::size_t>(lattice.words());
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Lattice::KindCells& cells = lattice.kind(k);
        const Kind& kind = problem.kinds[k];
        if (!cells.isHere) {
            continue;
        }
        const auto addHeight = [&](Height height) {
            const Nm foot = height.low + problem.limits.ripKerf;
            height.cells = static_cast<int>(height.low / h);
            height.footprint = static_cast<int>(foot / h);
            height.carries = foot % h != 0;
            m_heights.push_back(height);
        };
        if (kind.isPool) {
            const Nm step = std::max<Nm>(1, kind.step);
            findBuckets(k);
            const std::vector<int>& first = m_kinds[k].firstStep;
            for (std::size_t b = 0; b + 1 < first.size(); ++b) {
                Height height;
                height.low = kind.width + first[b] * step;
                height.high = kind.width + (first[b + 1] - 1) * step;
                height.pool = static_cast<int>(k);
                height.bucket = static_cast<int>(b);
                height.steps = first[b + 1] - 1 - first[b];
                height.stepCells = cells.stepCells;
                addHeight(height);
                if (height.steps > 0) {
                    height.atHigh = true;
                    addHeight(height);
                }
            }
            addPool(k);
            continue;
        }
        if (std::none_of(m_heights.begin(), m_heights.end(), [&](const Height& other) {
                return other.pool < 0 && other.low == kind.width;
            })) {
            Height height;
            height.low = height.high = kind.width;
            addHeight(height);
        }
        const auto nextIn = [&](int level) {
            std::vector<std::int16_t> next(static_cast<std::size_t>(m_groups * (m_coarse + 1)));
            for (int g = 0; g < m_groups; ++g) {
                const int v0 = g * groupRows;
                std::int16_t* row = next.data() + g * (m_coarse + 1);
                row[m_coarse] = static_cast<std::int16_t>(m_coarse);
                for (int c = m_coarse; c-- > 0;) {
                    bool open = false;
                    for (int i = c * coarseCells;
                         i < std::min(lattice.cells(), (c + 1) * coarseCells) && !open; ++i) {
                        const Lattice::Word* bits =
                            cells.open[level].data() + static_cast<std::size_t>(i) * words;
                        for (int v = v0; v < std::min(lattice.rows(), v0 + groupRows) && !open;
                             ++v) {
                            open = isSet(bits, v);
                        }
                    }
                    row[c] = open ? static_cast<std::int16_t>(c) : row[c + 1];
                }
            }
            return windowsOf(std::move(next));
        };
        m_kinds[k].free = nextIn(0);
        for (int level = 1; level < Lattice::levels; ++level) {
            if (cells.hasLevel[level] && m_kinds[k].price == 0) {
                m_kinds[k].price = lattice.levelPrice(level);
            }
        }
        if (m_kinds[k].price > 0) {
            m_kinds[k].paid = nextIn(Lattice::levels - 1);
        }
    }
}

void RowBound::findBuckets(std::size_t k) {
    const Problem& problem = *m_lattice->context().problem;
    const Kind& kind = problem.kinds[k];
    const Nm step = std::max<Nm>(1, kind.step);
    const int widths = m_lattice->kind(k).widths;
    const int most = static_cast<int>(std::max<Nm>(1, bucketWidth / step));
    std::vector<int>& first = m_kinds[k].firstStep;
    first = {0};
    for (int s = 1; s < widths; ++s) {
        const Nm width = kind.width + s * step;
        // A fixed width above the one before and not above this one begins a bucket.
        const bool parts =
            std::any_of(problem.kinds.begin(), problem.kinds.end(), [&](const Kind& other) {
                return !other.isPool && other.width > width - step && other.width <= width;
            });
        if (parts || s - first.back() >= most) {
            first.push_back(s);
        }
    }
    first.push_back(widths);
}

RowBound::Windows RowBound::windowsOf(std::vector<std::int16_t> next) const {
    Windows windows;
    windows.byLog.push_back(std::move(next));
    const auto stride = static_cast<std::size_t>(m_coarse + 1);
    for (int span = 1; 2 * span <= m_groups; span *= 2) {
        std::vector<std::int16_t> wider = windows.byLog.back();
        for (std::size_t g = 0;
             g + static_cast<std::size_t>(span) < static_cast<std::size_t>(m_groups); ++g) {
            const std::int16_t* above =
                windows.byLog.back().data() + (g + static_cast<std::size_t>(span)) * stride;
            std::int16_t* here = wider.data() + g * stride;
            for (std::size_t c = 0; c < stride; ++c) {
                here[c] = std::min(here[c], above[c]);
            }
        }
        windows.byLog.push_back(std::move(wider));
    }
    return windows;
}

void RowBound::addPool(std::size_t k) {
    const Lattice::KindCells& cells = m_lattice->kind(k);
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const int rows = m_lattice->rows();
    KindRows& mine = m_kinds[k];
    const int buckets = static_cast<int>(mine.firstStep.size()) - 1;
    mine.price = m_lattice->levelPrice(1);
    for (const bool paid : {false, true}) {
        if (paid && mine.price <= 0) {
            continue;
        }
        const auto size = static_cast<std::size_t>(m_groups * (m_coarse + 1));
        std::vector<std::vector<std::int16_t>> next(
            static_cast<std::size_t>(buckets),
            std::vector<std::int16_t>(size, static_cast<std::int16_t>(m_coarse)));
        // Open at a coarse cell: marked first, then turned into the next one that is.
        for (const Lattice::PoolPose& pose : cells.poses) {
            const std::vector<std::int16_t>& upTo = paid ? pose.cell.upTo : pose.cell.upToFree;
            for (int i = 0; i < m_lattice->cells(); ++i) {
                const auto row = static_cast<std::size_t>(i) * words;
                const Lattice::Word* low = pose.cell.lowOpen.data() + row;
                const Lattice::Word* high = pose.cell.highOpen.data() + row;
                const int coarse = i / coarseCells;
                // Highest open edge at or below each place.
                for (int v = 0; v < rows; ++v) {
                    if (!isSet(low, v)) {
                        continue;
                    }
                    const int most = upTo[static_cast<std::size_t>(i * rows + v)];
                    std::int16_t* at = nullptr;
                    for (int b = 0; b < buckets; ++b) {
                        const auto bucket = static_cast<std::size_t>(b);
                        const int first =
                            v + cells.width + mine.firstStep[bucket] * cells.stepCells;
                        if (first > most) {
                            break;
                        }
                        at = next[bucket].data() + (v / groupRows) * (m_coarse + 1) + coarse;
                        if (*at == coarse) {
                            continue;
                        }
                        const int last = std::min(
                            most, v + cells.width +
                                      (mine.firstStep[bucket + 1] - 1) * cells.stepCells + 1);
                        for (int m = first; m <= last; ++m) {
                            if (isSet(high, m)) {
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
                std::int16_t* row = bucket.data() + g * (m_coarse + 1);
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
            chunks.push_back(windowsOf(std::move(merged)));
        }
        std::vector<Windows>& alone = paid ? mine.paidBuckets : mine.freeBuckets;
        for (std::vector<std::int16_t>& bucket : next) {
            alone.push_back(windowsOf(std::move(bucket)));
        }
    }
}

int RowBound::nextOpen(const Arc& arc, int cell) const {
    const auto stride = static_cast<std::size_t>(m_coarse + 1);
    const int last = std::min(arc.lastGroup, m_groups - 1);
    const auto count = static_cast<unsigned>(last - arc.firstGroup + 1);
    const auto log = static_cast<std::size_t>(std::bit_width(count) - 1);
    const std::vector<std::int16_t>& table = arc.windows->byLog[log];
    const auto column = static_cast<std::size_t>(cell / coarseCells);
    const int a = table[static_cast<std::size_t>(arc.firstGroup) * stride + column];
    const int b = table[static_cast<std::size_t>(last + 1 - (1 << log)) * stride + column];
    return std::max(cell, std::min(a, b) * coarseCells);
}

void RowBound::arcsOf(int group, const Height& height, const BoundPrices& prices,
                      std::vector<Arc>& arcs) const {
    const Problem& problem = *m_lattice->context().problem;
    const LatticeStep step = m_lattice->step();
    const EdgeSlack& slack = m_lattice->slack();
    const Nm h = step.across;
    arcs.clear();
    // Groups in which the low edge of a blank may lie that is `width` wide at least.
    const auto lastGroup = [&](Nm width) {
        const Nm play = height.high - width;
        const int up = play > 0 ? static_cast<int>(play / h) + 1 : 0;
        return (group * groupRows + groupRows - 1 + up) / groupRows;
    };
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        const KindRows& mine = m_kinds[k];
        if (!m_lattice->kind(k).isHere || prices.each[k] <= 0 || kind.width > height.high) {
            continue;
        }
        Arc arc{};
        arc.firstGroup = group;
        arc.length = static_cast<int>(
            (kind.length + problem.limits.stripCrosscutKerf - slack.longer()) / step.along);
        arc.lengthEnd = static_cast<int>(
            (kind.length + problem.limits.crosscutKerf - slack.longer()) / step.along);
        const auto add = [&](const Windows& windows, Nm width, Cost worth) {
            if (worth > 0 && windows.isAny()) {
                arc.windows = &windows;
                arc.lastGroup = width == height.high ? group : lastGroup(width);
                arc.worth = worth;
                arcs.push_back(arc);
            }
        };
        if (!kind.isPool) {
            const Cost worth =
                prices.each[k] - (kind.width < height.low ? problem.limits.ripCost : 0);
            add(mine.free, kind.width, worth);
            add(mine.paid, kind.width, worth - mine.price);
            continue;
        }
        const Nm widthStep = std::max<Nm>(1, kind.step);
        const int most =
            static_cast<int>((std::min(height.high, kind.widest) - kind.width) / widthStep);
        const std::vector<int>& first = mine.firstStep;
        // The widest bucket that the strip has room for.
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
        const bool isOwn = height.pool == static_cast<int>(k) && height.steps > 0;
        addBoth(mine.freeBuckets[static_cast<std::size_t>(own)], at(mine.paidBuckets, own),
                stepOf(own),
                isOwn ? prices.between(k, height.atHigh ? most : stepOf(own),
                                       height.atHigh ? most : stepOf(own))
                      : prices.between(k, stepOf(own), most));
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
}

RowBound::From RowBound::from(int cell, const BoundPrices& prices, std::int64_t& work) const {
    const Limits& limits = m_lattice->context().problem->limits;
    struct Point {
        int cell;
        Cost value;
    };
    From result;
    result.m_heights = m_heights.size();
    result.m_first.push_back(0);
    std::vector<Arc> arcs;
    std::vector<Point> points; // Pareto: value grows with the cell
    std::vector<From::Step> steps;
    const int cells = m_lattice->cells();
    const int ends = m_lattice->lastEnd();
    // Keeps a list ascending in both.
    const auto insert = [](auto& list, std::size_t from, auto item, auto place) {
        auto at =
            std::partition_point(list.begin() + static_cast<std::ptrdiff_t>(from), list.end(),
                                 [&](const auto& other) { return place(other) <= place(item); });
        if (at != list.begin() && (at - 1)->value >= item.value) {
            return;
        }
        auto behind = at;
        while (behind != list.end() && behind->value <= item.value) {
            ++behind;
        }
        if (at != list.begin() && place(*(at - 1)) == place(item)) {
            --at;
        }
        at = list.erase(at, behind);
        list.insert(at, item);
    };
    for (int group = 0; group < m_groups; ++group) {
        for (const Height& height : m_heights) {
            steps.clear();
            if (group * groupRows + height.cells < m_lattice->rows()) {
                arcsOf(group, height, prices, arcs);
                points.assign(1, {cell, 0});
                for (std::size_t p = 0; p < points.size(); ++p) {
                    const Point point = points[p];
                    for (const Arc& arc : arcs) {
                        const int start = nextOpen(arc, point.cell);
                        if (start >= cells || start + arc.lengthEnd > ends) {
                            continue;
                        }
                        if (point.value > 0) {
                            insert(steps, 0,
                                   From::Step{start + arc.lengthEnd, point.value + arc.worth},
                                   [](const From::Step& step) { return step.end; });
                        }
                        const Cost on = point.value + arc.worth - limits.crosscutCost;
                        if (on > 0 && start + arc.length < cells) {
                            insert(points, p + 1, Point{start + arc.length, on},
                                   [](const Point& other) { return other.cell; });
                        }
                    }
                }
                work += static_cast<std::int64_t>(points.size() * arcs.size() / 16 + 1);
            }
            result.m_steps.insert(result.m_steps.end(), steps.begin(), steps.end());
            result.m_first.push_back(static_cast<std::uint32_t>(result.m_steps.size()));
        }
    }
    return result;
}

Cost RowBound::From::most(int group, std::size_t height, int end) const {
    const std::size_t at = static_cast<std::size_t>(group) * m_heights + height;
    const auto first = m_steps.begin() + m_first[at];
    const auto last = m_steps.begin() + m_first[at + 1];
    const auto past =
        std::partition_point(first, last, [&](const Step& step) { return step.end <= end; });
    return past == first ? 0 : (past - 1)->value;
}

Cost RowBound::From::mostWithOffcut(int group, std::size_t height, int end, double perCell,
                                    int least) const {
    const std::size_t at = static_cast<std::size_t>(group) * m_heights + height;
    Cost best = 0;
    for (std::size_t s = m_first[at]; s < m_first[at + 1] && m_steps[s].end <= end; ++s) {
        const int left = end - m_steps[s].end + 1;
        best = std::max(best, m_steps[s].value +
                                  (left >= least ? static_cast<Cost>(perCell * left) + 1 : 0));
    }
    return best;
}

} // namespace stavewright::cutting
