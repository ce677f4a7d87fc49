// The best rows of a strip under given prices.
//
// A row goes on where the blank before it ends, by parts of a cell: rounded down to whole cells,
// every blank of a row would gain up to one.
//
// Where blanks touch from the section's end on, each costs the crosscut behind it alone. A gap
// costs another one. More than one gap is not counted: a blank between two of them could as well
// touch the next, and the places where it would are not looked at.
#include <algorithm>
#include <limits>
#include <utility>

#include "core/cutting/StripRow.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;
/// What a row is taken to be worth at least that goes on: a cheap blank may be less than its cut.
constexpr Cost leastReached = 1;

} // namespace

void StripRow::best(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
                    const RowBegin& begin, Scratch& scratch, std::vector<RowStep>& steps) const {
    fill(lattice, prices, kinds, begin, scratch, steps, nullptr);
}

void StripRow::findArcs(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
                        Scratch& scratch) const {
    const Problem& problem = *lattice.context().problem;
    const Limits& limits = problem.limits;
    const Nm longer = lattice.slack().longer();
    const Nm step = lattice.step().along;
    scratch.arcs.clear();
    for (const KindRuns& runs : m_kinds) {
        if (prices.each[runs.kind] <= 0 || (kinds >> (runs.kind % 64) & 1) == 0) {
            continue;
        }
        const Kind& kind = problem.kinds[runs.kind];
        Scratch::Arc arc{&runs, runs.first, 0, 0, {nothing, 0}};
        arc.length = RowParts::of(kind.length + limits.stripCrosscutKerf - longer, step);
        arc.lengthEnd = RowParts::of(kind.length + limits.crosscutKerf - longer, step);
        scratch.arcs.push_back(arc);
    }
}

void StripRow::fillTouching(const Lattice& lattice, const BoundPrices& prices,
                            const RowBegin& begin, Scratch& scratch, Record* record) const {
    using Taken = Scratch::Taken;
    const Problem& problem = *lattice.context().problem;
    const Limits& limits = problem.limits;
    const Nm step = lattice.step().along;
    const int cells = lattice.cells() - begin.first;
    const int ends = lattice.lastEnd();
    const Nm spread = (begin.last - begin.first + 1) * step - 1; // of where the section begins
    scratch.touching.grow(cells);
    scratch.taken.resize(std::max(scratch.taken.size(), static_cast<std::size_t>(cells)));
    const auto goOn = [&](int at, const Taken& taken, Cost worth) {
        const int last = begin.first + static_cast<int>((taken.most + spread) / step);
        for (Scratch::Arc& arc : scratch.arcs) {
            while (arc.next + 1 < arc.runs->last && m_runs[arc.next + 1].cell <= begin.first + at) {
                ++arc.next;
            }
            Worth here{nothing, 0};
            int cell = 0;
            for (std::uint32_t r = arc.next; r < arc.runs->last && m_runs[r].cell <= last; ++r) {
                const Worth other = worthOf(lattice, prices, *arc.runs, m_runs[r]);
                if (other.value > here.value) {
                    here = other;
                    cell = std::max<int>(begin.first + at, m_runs[r].cell);
                }
            }
            if (here.value <= 0) {
                continue;
            }
            const Link link{RowParts::begin(cell), arc.runs->kind, here.width, at};
            const Nm length = problem.kinds[arc.runs->kind].length;
            const int end =
                begin.first + static_cast<int>((taken.least + length + limits.crosscutKerf) / step);
            if (at > 0 && end <= ends) {
                reach(scratch.ended, end, worth + here.value, record, &Record::ended, link);
            }
            const Nm more = length + limits.stripCrosscutKerf;
            const auto there = static_cast<int>((taken.least + more) / step);
            if (there >= cells) {
                continue;
            }
            Taken& known = scratch.taken[static_cast<std::size_t>(there)];
            known.least =
                known.most < 0 ? taken.least + more : std::min(known.least, taken.least + more);
            known.most = std::max(known.most, taken.most + more);
            const Cost on = std::max(leastReached, worth + here.value - limits.crosscutCost);
            reach(scratch.touching, there, on, record, &Record::touching, link);
        }
    };
    goOn(0, {0, 0}, 0);
    scratch.touching.drain([&](int at, Cost worth) {
        const Taken taken = std::exchange(scratch.taken[static_cast<std::size_t>(at)], Taken{});
        goOn(at, taken, worth);
        const int part = RowParts::begin(begin.first) + RowParts::of(taken.least, step);
        if (scratch.reached.raise(part, std::max(leastReached, worth - limits.crosscutCost)) &&
            record != nullptr) {
            record->reached[static_cast<std::size_t>(part)] =
                record->touching[static_cast<std::size_t>(at)];
        }
    });
}

void StripRow::fillApart(const Lattice& lattice, const BoundPrices& prices, int cell,
                         Scratch& scratch, Record* record) const {
    const Limits& limits = lattice.context().problem->limits;
    const int past = RowParts::begin(lattice.cells());
    const int pastEnds = RowParts::begin(lattice.lastEnd() + 1);
    std::vector<Scratch::Arc>& arcs = scratch.arcs;
    int shortest = pastEnds;
    for (Scratch::Arc& arc : arcs) {
        arc.next = arc.runs->first;
        while (arc.next < arc.runs->last && m_runs[arc.next].cell <= cell) {
            arc.here = worthOf(lattice, prices, *arc.runs, m_runs[arc.next]);
            ++arc.next;
        }
        shortest = std::min(shortest, arc.lengthEnd);
    }
    // Where the next run of any kind begins.
    const auto nextRun = [&] {
        int next = std::numeric_limits<int>::max();
        for (const Scratch::Arc& arc : arcs) {
            next = arc.next < arc.runs->last
                       ? std::min(next, RowParts::begin(m_runs[arc.next].cell))
                       : next;
        }
        return next;
    };
    int changes = nextRun();
    Cost before = nothing;
    int beforeAt = -1;
    // Only where a row ends or other blanks fit can one go on better than at the part before.
    for (int i = RowParts::begin(cell); i < past && i + shortest < pastEnds;
         i = std::min(scratch.reached.next(), changes)) {
        bool isMore = i == RowParts::begin(cell);
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
            if (arc.next < arc.runs->last && RowParts::begin(m_runs[arc.next].cell) == i) {
                arc.here = worthOf(lattice, prices, *arc.runs, m_runs[arc.next]);
                ++arc.next;
                isAsked = true;
            }
            if (!isAsked || arc.here.value <= 0) {
                continue;
            }
            const Link link{i, arc.runs->kind, arc.here.width};
            if (before > nothing && i + arc.lengthEnd < pastEnds) {
                const int there = RowParts::cellOf(i + arc.lengthEnd);
                reach(scratch.ended, there, before + arc.here.value, record, &Record::ended, link);
            }
            if (i + arc.length < past) {
                const int there = i + arc.length;
                const Cost on =
                    std::max(before, -limits.crosscutCost) + arc.here.value - limits.crosscutCost;
                reach(scratch.reached, there, std::max(leastReached, on), record, &Record::reached,
                      link);
            }
        }
        changes = i < changes ? changes : nextRun();
    }
    scratch.reached.drain([](int, Cost) {});
}

void StripRow::fill(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
                    const RowBegin& begin, Scratch& scratch, std::vector<RowStep>& steps,
                    Record* record) const {
    steps.clear();
    findArcs(lattice, prices, kinds, scratch);
    // By part: most of the rows that end before it, their crosscut paid; and of whole rows by the
    // cell in which the section's crosscut ends.
    const int size = std::max(lattice.cells(), lattice.lastEnd()) + 1;
    const int parts = RowParts::begin(size);
    scratch.reached.grow(parts);
    scratch.ended.grow(size);
    if (record != nullptr) {
        record->reached.resize(static_cast<std::size_t>(parts));
        record->ended.resize(static_cast<std::size_t>(size));
        record->touching.resize(static_cast<std::size_t>(size));
        record->before.assign(static_cast<std::size_t>(parts), -1);
    }
    if (begin.isSquare) {
        fillTouching(lattice, prices, begin, scratch, record);
    }
    fillApart(lattice, prices, begin.first, scratch, record);
    Cost most = 0;
    scratch.ended.drain([&](int end, Cost worth) {
        if (worth > most) {
            most = worth;
            steps.push_back({end, most});
        }
    });
}

std::vector<RowBlank> StripRow::blanksOf(const Lattice& lattice, const BoundPrices& prices,
                                         std::uint64_t kinds, const RowBegin& begin,
                                         int end) const {
    std::vector<RowStep> steps;
    Record record;
    Scratch scratch;
    fill(lattice, prices, kinds, begin, scratch, steps, &record);
    std::vector<RowBlank> blanks;
    const auto past = std::partition_point(steps.begin(), steps.end(),
                                           [&](const RowStep& step) { return step.end <= end; });
    if (past == steps.begin()) {
        return blanks;
    }
    Link link = record.ended[static_cast<std::size_t>((past - 1)->end)];
    while (true) {
        blanks.push_back({link.kind, RowParts::cellOf(link.from), link.width});
        if (link.touching == 0) {
            break; // it lies at the section's end
        }
        if (link.touching > 0) {
            link = record.touching[static_cast<std::size_t>(link.touching)];
            continue;
        }
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
