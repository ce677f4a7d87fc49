#include "core/cutting/StripRow.h"

#include <algorithm>
#include <limits>

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

Nm floorDiv(Nm a, Nm b) { return a >= 0 ? a / b : -((-a + b - 1) / b); }

std::array<std::int16_t, Lattice::levels> noCode() {
    std::array<std::int16_t, Lattice::levels> code{};
    code.fill(-1);
    return code;
}

} // namespace

StripRow::StripRow(const Lattice& lattice, const StripPlace& place) {
    const std::vector<Kind>& kinds = lattice.context().problem->kinds;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        if (!lattice.kind(k).isHere || kinds[k].width > place.high) {
            continue;
        }
        if (kinds[k].isPool) {
            addPool(lattice, k, place);
        } else {
            addFixed(lattice, k, place);
        }
    }
    m_kinds.shrink_to_fit(); // thousands of them are kept
    m_runs.shrink_to_fit();
}

void StripRow::addRun(std::size_t first, const Run& run) {
    const bool isNone = run.code == noCode();
    if (m_runs.size() == first) {
        if (!isNone) {
            m_runs.push_back(run);
        }
    } else if (run.code != m_runs.back().code) {
        m_runs.push_back(run);
    }
}

void StripRow::addFixed(const Lattice& lattice, std::size_t k, const StripPlace& place) {
    const Lattice::KindCells& cells = lattice.kind(k);
    const Kind& kind = lattice.context().problem->kinds[k];
    const Nm h = lattice.step().across;
    const auto words = static_cast<std::size_t>(lattice.words());
    // Cells of the low edge where the blank lies along the strip's high edge.
    const int upFirst = place.v + static_cast<int>(floorDiv(place.low - kind.width, h));
    const int upLast =
        std::min(lattice.rows() - 1,
                 place.v + static_cast<int>(floorDiv(place.high - kind.width + h - 1, h)));
    const std::size_t first = m_runs.size();
    KindRuns mine{static_cast<std::uint32_t>(k), static_cast<std::uint32_t>(first), 0, 0,
                  kind.width < place.low};
    const auto isOpen = [&](int level, int i) {
        const Lattice::Word* bits = cells.open[level].data() + static_cast<std::size_t>(i) * words;
        if (Lattice::isSet(bits, place.v)) {
            return true;
        }
        for (int m = std::max(upFirst, place.v); m <= upLast; ++m) {
            if (Lattice::isSet(bits, m)) {
                return true;
            }
        }
        return false;
    };
    const int last = cells.lastLevel();
    for (const int i : cells.changes) {
        int level = -1;
        if (isOpen(last, i)) {
            level = 0;
            while (level < last && !isOpen(level, i)) {
                do {
                    ++level;
                } while (!cells.hasLevel[level]);
            }
        }
        Run run{static_cast<std::int16_t>(i), noCode()};
        run.code[0] = static_cast<std::int16_t>(level);
        addRun(first, run);
    }
    mine.last = static_cast<std::uint32_t>(m_runs.size());
    if (mine.last > mine.first) {
        m_kinds.push_back(mine);
    }
}

void StripRow::addPool(const Lattice& lattice, std::size_t k, const StripPlace& place) {
    const Lattice::KindCells& cells = lattice.kind(k);
    const Kind& kind = lattice.context().problem->kinds[k];
    const Nm h = lattice.step().across;
    const Nm widthStep = std::max<Nm>(1, kind.step);
    const auto words = static_cast<std::size_t>(lattice.words());
    const int top =
        std::min(cells.widths - 1, static_cast<int>((place.high - kind.width) / widthStep));
    const bool carries = (kind.width + lattice.context().problem->limits.ripKerf) % h != 0;
    // Cells in which the strip's high edge may lie.
    const int highFirst = place.v + static_cast<int>(place.low / h);
    const int highLast =
        std::min(lattice.rows() - 1, place.v + static_cast<int>((place.high + h - 1) / h));
    const std::size_t first = m_runs.size();
    KindRuns mine{static_cast<std::uint32_t>(k), static_cast<std::uint32_t>(first), 0,
                  static_cast<std::int16_t>(
                      std::max<Nm>(0, (place.low - kind.width + widthStep - 1) / widthStep)),
                  false};
    for (const int i : cells.changes) {
        Run run{static_cast<std::int16_t>(i), noCode()};
        for (const Lattice::PoolPose& pose : cells.poses) {
            const Lattice::Word* lowOpen =
                pose.cell.lowOpen.data() + static_cast<std::size_t>(i) * words;
            const Lattice::Word* highOpen =
                pose.cell.highOpen.data() + static_cast<std::size_t>(i) * words;
            std::array<const std::int16_t*, Lattice::levels> upTo{};
            for (std::size_t level = 0; level < Lattice::levels; ++level) {
                upTo[level] = pose.cell.upTo.at(level, static_cast<std::size_t>(i));
            }
            // Along the low edge: the widest whose high edge may lie where it does.
            if (Lattice::isSet(lowOpen, place.v)) {
                int s = top;
                for (std::size_t code = Lattice::levels; code-- > 0;) {
                    // What is paid less reaches no higher.
                    const int limit = upTo[code][place.v];
                    const int most = (limit - place.v - cells.width) / cells.stepCells;
                    s = limit < place.v + cells.width ? -1 : std::min(s, most);
                    for (; s >= 0; --s) {
                        const int high = place.v + cells.width + s * cells.stepCells;
                        if (Lattice::isSet(highOpen, high) ||
                            (carries && high + 1 < lattice.rows() &&
                             Lattice::isSet(highOpen, high + 1))) {
                            break;
                        }
                    }
                    run.code[code] =
                        std::max<std::int16_t>(run.code[code], static_cast<std::int16_t>(s));
                }
            }
            // Along the high edge: the widest whose low edge may lie where it does.
            for (int high = highFirst; high <= highLast; ++high) {
                if (!Lattice::isSet(highOpen, high)) {
                    continue;
                }
                for (int s = top; s > run.code[0]; --s) {
                    const Nm width = kind.width + s * widthStep;
                    const int low = std::max(place.v, high - static_cast<int>((width + h - 1) / h));
                    const int lowLast = high - static_cast<int>(width / h);
                    for (int m = low; m <= lowLast; ++m) {
                        if (!Lattice::isSet(lowOpen, m)) {
                            continue;
                        }
                        for (std::size_t code = 0; code < Lattice::levels; ++code) {
                            if (high <= upTo[code][m]) {
                                run.code[code] = std::max<std::int16_t>(
                                    run.code[code], static_cast<std::int16_t>(s));
                            }
                        }
                    }
                }
            }
        }
        addRun(first, run);
    }
    mine.last = static_cast<std::uint32_t>(m_runs.size());
    if (mine.last > mine.first) {
        m_kinds.push_back(mine);
    }
}

StripRow::Worth StripRow::worthOf(const Lattice& lattice, const BoundPrices& prices,
                                  const KindRuns& runs, const Run& run) const {
    const Problem& problem = *lattice.context().problem;
    const Kind& kind = problem.kinds[runs.kind];
    const Cost rip = problem.limits.ripCost;
    if (!kind.isPool) {
        return run.code[0] < 0 ? Worth{nothing, 0}
                               : Worth{prices.each[runs.kind] - lattice.levelPrice(run.code[0]) -
                                           (runs.isTrimmed ? rip : 0),
                                       kind.width};
    }
    Worth most{nothing, 0};
    for (int level = 0; level < Lattice::levels; ++level) {
        const int s = run.code[static_cast<std::size_t>(level)];
        if (s < 0) {
            continue;
        }
        const Cost worth = prices.byWidth[runs.kind][static_cast<std::size_t>(s)] -
                           lattice.levelPrice(level) - (s < runs.untrimmed ? rip : 0);
        if (worth > most.value) {
            most = {worth, kind.width + s * std::max<Nm>(1, kind.step)};
        }
    }
    return most;
}

void StripRow::best(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
                    int cell, Scratch& scratch, std::vector<RowStep>& steps) const {
    fill(lattice, prices, kinds, cell, scratch, steps, nullptr);
}

void StripRow::fill(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
                    int cell, Scratch& scratch, std::vector<RowStep>& steps, Record* record) const {
    steps.clear();
    const Problem& problem = *lattice.context().problem;
    const Limits& limits = problem.limits;
    const Nm longer = lattice.slack().longer();
    const Nm step = lattice.step().along;
    const int cells = lattice.cells();
    const int ends = lattice.lastEnd();
    std::vector<Scratch::Arc>& arcs = scratch.arcs;
    arcs.clear();
    int shortest = ends + 1;
    for (const KindRuns& runs : m_kinds) {
        if (prices.each[runs.kind] <= 0 || (kinds >> (runs.kind % 64) & 1) == 0) {
            continue;
        }
        const Kind& kind = problem.kinds[runs.kind];
        Scratch::Arc arc{&runs, runs.first, 0, 0, {nothing, 0}};
        arc.length = static_cast<int>((kind.length + limits.stripCrosscutKerf - longer) / step);
        arc.lengthEnd = static_cast<int>((kind.length + limits.crosscutKerf - longer) / step);
        while (arc.next < runs.last && m_runs[arc.next].cell <= cell) {
            arc.here = worthOf(lattice, prices, runs, m_runs[arc.next]);
            ++arc.next;
        }
        shortest = std::min(shortest, arc.lengthEnd);
        arcs.push_back(arc);
    }
    // Where the next run of any kind begins.
    const auto nextRun = [&] {
        int next = std::numeric_limits<int>::max();
        for (const Scratch::Arc& arc : arcs) {
            next = arc.next < arc.runs->last ? std::min<int>(next, m_runs[arc.next].cell) : next;
        }
        return next;
    };
    int changes = nextRun();
    // By cell: most of the rows that end before it, their crosscut paid; and of whole rows by the
    // cell in which the section's crosscut ends.
    const int size = std::max(cells, ends) + 1;
    scratch.reached.grow(size);
    scratch.ended.grow(size);
    if (record != nullptr) {
        record->reached.resize(static_cast<std::size_t>(size));
        record->ended.resize(static_cast<std::size_t>(size));
        record->before.assign(static_cast<std::size_t>(size), -1);
    }
    Cost before = nothing;
    int beforeAt = -1;
    // Only where a row ends or other blanks fit can one go on better than at the cell before.
    for (int i = cell; i < cells && i + shortest <= ends;
         i = std::min(scratch.reached.next(), changes)) {
        bool isMore = i == cell;
        if (scratch.reached.next() == i) {
            const Cost worth = scratch.reached.take(i);
            if (worth > before) {
                before = worth;
                beforeAt = i;
                isMore = true;
            }
        }
        if (record != nullptr) {
            record->before[static_cast<std::size_t>(i)] = beforeAt;
        }
        for (Scratch::Arc& arc : arcs) {
            bool isAsked = isMore;
            if (arc.next < arc.runs->last && m_runs[arc.next].cell == i) {
                arc.here = worthOf(lattice, prices, *arc.runs, m_runs[arc.next]);
                ++arc.next;
                isAsked = true;
            }
            if (!isAsked || arc.here.value <= 0) {
                continue;
            }
            if (before > nothing && i + arc.lengthEnd <= ends) {
                const int there = i + arc.lengthEnd;
                if (scratch.ended.raise(there, before + arc.here.value) && record != nullptr) {
                    record->ended[static_cast<std::size_t>(there)] = {i, arc.runs->kind,
                                                                      arc.here.width};
                }
            }
            const Cost on = std::max<Cost>(before, 0) + arc.here.value - limits.crosscutCost;
            if (on > 0 && i + arc.length < cells) {
                const int there = i + arc.length;
                if (scratch.reached.raise(there, on) && record != nullptr) {
                    record->reached[static_cast<std::size_t>(there)] = {i, arc.runs->kind,
                                                                        arc.here.width};
                }
            }
        }
        changes = i < changes ? changes : nextRun();
    }
    scratch.reached.drain([](int, Cost) {});
    Cost most = 0;
    scratch.ended.drain([&](int end, Cost worth) {
        if (worth > most) {
            most = worth;
            steps.push_back({end, most});
        }
    });
}

std::vector<RowBlank> StripRow::blanksOf(const Lattice& lattice, const BoundPrices& prices,
                                         std::uint64_t kinds, int cell, int end) const {
    std::vector<RowStep> steps;
    Record record;
    Scratch scratch;
    fill(lattice, prices, kinds, cell, scratch, steps, &record);
    std::vector<RowBlank> blanks;
    const auto past = std::partition_point(steps.begin(), steps.end(),
                                           [&](const RowStep& step) { return step.end <= end; });
    if (past == steps.begin()) {
        return blanks;
    }
    Link link = record.ended[static_cast<std::size_t>((past - 1)->end)];
    for (;;) {
        blanks.push_back({link.kind, link.from, link.width});
        const int before = record.before[static_cast<std::size_t>(link.from)];
        if (before < 0) {
            break;
        }
        link = record.reached[static_cast<std::size_t>(before)];
    }
    std::reverse(blanks.begin(), blanks.end());
    return blanks;
}

} // namespace stavewright::cutting
