#include "core/cutting/SectionBound.h"

#include <algorithm>
#include <utility>

#include "core/cutting/Leaning.h"
#include "core/cutting/Solve.h"
#include "core/cutting/StripLabel.h"

namespace stavewright::cutting {

namespace {

/// Windows of starts that are longer than this are taken by blocks inside.
constexpr int cellsOneByOne = 40;
/// Rows that are worked out between two looks at which are still worth it.
constexpr int looksPerPass = 4;
/// Of these, so many together where there are many.
constexpr std::size_t rowsPerPass = 400;
/// Of stacking that take as long as one of the work that limits count.
constexpr std::int64_t stepsOfWork = 16;
/// Of the same, for a row that is worked out.
constexpr std::int64_t workOfRow = 64;

} // namespace

SectionBound::SectionBound(const Lattice& lattice, const RowBound& rows, StripRows& strips,
                           int earlier)
    : m_lattice(&lattice)
    , m_rows(&rows)
    , m_strips(&strips)
    , m_earlier(earlier) {}

void SectionBound::addFixed(std::size_t k, int lastStart, Cost worth) {
    const int firstStart = m_range.firstBegin;
    const Lattice::KindCells& cells = m_lattice->kind(k);
    const Kind& kind = m_lattice->context().problem->kinds[k];
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const Nm foot = kind.width + m_lattice->context().problem->limits.ripKerf;
    const std::size_t at = m_open.size();
    m_fixed.push_back(
        {&cells, worth, foot % m_lattice->step().across != 0, at, k, firstStart, lastStart});
    m_open.resize(at + Lattice::levels * words, 0);
    for (int level = 0; level < Lattice::levels; ++level) {
        if (level > 0 && !cells.hasLevel[level]) {
            continue;
        }
        Word* open = m_open.data() + at + static_cast<std::size_t>(level) * words;
        for (int i = firstStart; i <= lastStart;) {
            const bool whole =
                i % Lattice::blockCells == 0 && i + Lattice::blockCells - 1 <= lastStart;
            const Word* row = whole
                                  ? cells.block[level].data() +
                                        static_cast<std::size_t>(i / Lattice::blockCells) * words
                                  : cells.open[level].data() + static_cast<std::size_t>(i) * words;
            for (std::size_t w = 0; w < words; ++w) {
                open[w] |= row[w];
            }
            i += whole ? Lattice::blockCells : 1;
        }
    }
}

bool SectionBound::covers(const PoolPlace& a, const PoolPlace& b, std::size_t words,
                          std::size_t rows) {
    for (std::size_t w = 0; w < words; ++w) {
        if ((b.lowOpen[w] & ~a.lowOpen[w]) != 0 || (b.highOpen[w] & ~a.highOpen[w]) != 0) {
            return false;
        }
    }
    bool all = true;
    for (std::size_t level = 0; level < Lattice::levels && all; ++level) {
        const std::int16_t* mine = a.upTo[level];
        const std::int16_t* other = b.upTo[level];
        for (std::size_t m = 0; mine != other && m < rows; ++m) {
            all &= other[m] <= mine[m];
        }
    }
    return all;
}

void SectionBound::addPool(std::size_t k, const BoundPrices& prices, int lastStart, Cost paid,
                           double offcutPerRow, int widths) {
    const int firstStart = m_range.firstBegin;
    const Lattice::KindCells& cells = m_lattice->kind(k);
    const Kind& kind = m_lattice->context().problem->kinds[k];
    const auto words = static_cast<std::size_t>(m_lattice->words());
    const auto rows = static_cast<std::size_t>(m_lattice->rows());
    const Nm foot = kind.width + m_lattice->context().problem->limits.ripKerf;
    const std::size_t first = m_places.size();
    const bool byBlocks = lastStart - firstStart >= cellsOneByOne;
    for (const Lattice::PoolPose& pose : cells.poses) {
        auto change = std::upper_bound(cells.changes.begin(), cells.changes.end(), firstStart);
        for (int i = firstStart; i <= lastStart;) {
            const bool whole = byBlocks && i % Lattice::blockCells == 0 &&
                               i + Lattice::blockCells - 1 <= lastStart;
            const int past = i + (whole ? Lattice::blockCells : 1);
            while (change != cells.changes.end() && *change < i) {
                ++change;
            }
            if (i > firstStart && (change == cells.changes.end() || *change >= past)) {
                i = past; // like the one before
                continue;
            }
            const Lattice::PoolRows& source = whole ? pose.block : pose.cell;
            const auto at = static_cast<std::size_t>(whole ? i / Lattice::blockCells : i);
            PoolPlace place{
                source.lowOpen.data() + at * words, source.highOpen.data() + at * words, {}, 0};
            for (std::size_t level = 0; level < Lattice::levels; ++level) {
                place.upTo[level] = source.upTo.at(level, at);
            }
            i = past;
            bool needed = true;
            for (std::size_t p = first; p < m_places.size() && needed; ++p) {
                needed = !covers(m_places[p], place, words, rows);
            }
            if (!needed) {
                continue;
            }
            for (std::size_t p = first; p < m_places.size();) {
                if (covers(place, m_places[p], words, rows)) {
                    m_places[p] = m_places.back();
                    m_places.pop_back();
                } else {
                    ++p;
                }
            }
            m_places.push_back(place);
        }
    }
    const bool carries = foot % m_lattice->step().across != 0;
    for (std::size_t p = first; p < m_places.size(); ++p) {
        // In a cell a stave's high edge may lie as well where it may in the next one up.
        const Word* open = m_places[p].highOpen;
        m_places[p].reach = m_reach.size();
        for (std::size_t w = 0; w < words; ++w) {
            const Word next = open[w] >> 1 | (w + 1 < words ? open[w + 1] << 63 : 0);
            const bool isLast = w == (rows - 1) / 64; // there is none above the last row
            m_reach.push_back(
                open[w] |
                (cells.highCarries ? next & ~(isLast ? Word{1} << (rows - 1) % 64 : 0) : 0));
        }
    }
    const std::size_t firstWorth = m_worths.size();
    for (int s = 0; s < widths; ++s) {
        const int across = cells.width + s * cells.stepCells + 1;
        m_worths.push_back(prices.byWidth[k][static_cast<std::size_t>(s)] - paid +
                           static_cast<Cost>(offcutPerRow * across));
    }
    m_pools.push_back(
        {k, &cells, widths, carries, first, m_places.size(), firstWorth, firstStart, lastStart});
}

Cost SectionBound::most(const SectionRange& range, const BoundPrices& prices,
                        const RowBound::From* behind, double offcut, Rows rows, Cost least,
                        const std::vector<Cost>* above) {
    const Problem& problem = *m_lattice->context().problem;
    const Limits& limits = problem.limits;
    const Nm g = m_lattice->step().along;
    m_range = range;
    m_longest = (range.lastEnd + 1 - range.firstBegin) * g - limits.crosscutKerf;
    m_offcut = offcut;
    m_rowsAre = rows;
    m_least = least;
    m_above = above;
    m_offcutPerCell = offcut * static_cast<double>(g);
    m_offcutCells = static_cast<int>(limits.offcutLength / g);
    m_ripped = false;
    m_isLeaning = allLean(*m_lattice, range);
    m_faced.assign(problem.kinds.size(), {}); // found() may be asked for what gives nothing
    m_room.reset();
    if (m_longest < limits.leastFacedLength || !face(prices)) {
        return std::max<Cost>(0, least);
    }
    const auto isWhole = [](const Faced& faced) { return faced.whole; };
    const auto needsRipping = [](const Faced& faced) { return !faced.whole && faced.ripped > 0; };
    // Where every kind may be had from it whole, ripping it first gains nothing.
    const bool whole = std::any_of(m_faced.begin(), m_faced.end(), isWhole);
    const bool ripped = std::any_of(m_faced.begin(), m_faced.end(), needsRipping);
    Cost most = std::max<Cost>(0, least);
    for (const bool mode : {false, true}) {
        const Cost here = (mode ? ripped : whole) ? stackUp(prices, behind, mode) : 0;
        if (here <= most) {
            continue;
        }
        most = here;
        m_least = here;
        m_ripped = mode;
        if (m_offcut == 0 && rows == Rows::exact) {
            m_room = roomOf(prices, mode);
        }
    }
    return most;
}

bool SectionBound::face(const BoundPrices& prices) {
    const Problem& problem = *m_lattice->context().problem;
    const BoardModel& model = m_lattice->model();
    const Limits& limits = problem.limits;
    const Nm g = m_lattice->step().along;
    // What every section of the range covers.
    const Nm from = std::min(m_lattice->end(), m_lattice->xOf(m_range.lastBegin + 1));
    const Nm to = std::clamp(m_lattice->begin() + m_range.firstEnd * g - limits.crosscutKerf, from,
                             m_lattice->end());
    const Nm full = widestBetween(model.edges(), from, to);
    const bool mayWhole = limits.jointerWidth == 0 || full <= limits.jointerWidth;
    // Warp that sits at one end is met by where a section ends, other warp by how long it is.
    const Nm begin = model.board().warpWhere == 0 ? from : m_lattice->xOf(m_range.firstBegin);
    m_faced.assign(problem.kinds.size(), {});
    bool any = false;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Lattice::KindCells& cells = m_lattice->kind(k);
        const Kind& kind = problem.kinds[k];
        if (!cells.isHere || prices.each[k] <= 0) {
            continue;
        }
        Faced& faced = m_faced[k];
        faced.lastStart =
            std::min(m_range.lastEnd - m_lattice->leastCells(kind), m_lattice->cells() - 1);
        if (faced.lastStart < m_range.firstBegin) {
            continue;
        }
        // It is as long at least as the blank that it holds.
        const Nm end = std::max(to, begin + kind.length - m_lattice->slack().longer());
        const auto reaches = [&](Nm width) {
            return reachable(model.board(), model.size(), from, end, width) >= kind.thickness;
        };
        faced.whole = mayWhole && reaches(full);
        // Rough-ripped: a strip is faced at its own width, and the wider the less is left of it.
        const Nm most = limits.jointerWidth > 0 ? limits.jointerWidth : model.size().widest;
        if (kind.width <= most && reaches(kind.width)) {
            Nm low = kind.width;
            Nm high = most + 1;
            while (high - low > 1000) { // a micrometre is near enough
                const Nm middle = low + (high - low) / 2;
                (reaches(middle) ? low : high) = middle;
            }
            faced.ripped = high;
        }
        any = any || faced.whole || faced.ripped > 0;
    }
    return any;
}

std::int64_t SectionBound::takeWork() {
    return m_stack.takeSteps() / stepsOfWork + std::exchange(m_rowsWorkedOut, 0) * workOfRow;
}

void SectionBound::rest() {
    m_open = {};
    m_reach = {};
    m_stack.rest();
    m_guesses = {};
    m_scratch = {};
    m_steps = {};
}

std::uint64_t SectionBound::allowedIn(Nm width, bool ripped) const {
    std::uint64_t kinds = 0;
    for (std::size_t k = 0; k < m_faced.size(); ++k) {
        if (ripped ? width <= m_faced[k].ripped : m_faced[k].whole) {
            kinds |= std::uint64_t{1} << (k % 64);
        }
    }
    return kinds;
}

Cost SectionBound::stackUp(const BoundPrices& prices, const RowBound::From* behind, bool ripped) {
    const Problem& problem = *m_lattice->context().problem;
    const Limits& limits = problem.limits;
    const LatticeStep step = m_lattice->step();
    const Nm shortest =
        (m_range.firstEnd - m_range.lastBegin - 1) * step.along - limits.crosscutKerf;
    m_fixed.clear();
    m_pools.clear();
    m_places.clear();
    m_open.clear();
    m_reach.clear();
    m_worths.clear();
    int widest = 0;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Lattice::KindCells& cells = m_lattice->kind(k);
        const Kind& kind = problem.kinds[k];
        const Faced& faced = m_faced[k];
        if (ripped ? faced.ripped < kind.width : !faced.whole) {
            continue;
        }
        const bool mayBeFlush =
            kind.length >= shortest && kind.length <= m_longest + m_lattice->slack().longer();
        const Cost cut = std::max(endCuts(2), mayBeFlush ? 0 : limits.crosscutCost);
        const Nm left = m_longest - kind.length;
        const bool keeps = m_offcut > 0 && left >= limits.offcutLength;
        widest = std::max(widest, cells.footprint + cells.widths * cells.stepCells + 1);
        if (!kind.isPool) {
            const Cost kept = keeps && kind.width >= limits.offcutWidth
                                  ? static_cast<Cost>(m_offcut * static_cast<double>(left) *
                                                      static_cast<double>(kind.width)) +
                                        1
                                  : 0;
            addFixed(k, faced.lastStart, prices.each[k] - cut + kept);
            continue;
        }
        int widths = cells.widths;
        if (ripped) {
            const Nm wider = faced.ripped - kind.width;
            widths = static_cast<int>(std::min<Nm>(widths, wider / std::max<Nm>(1, kind.step) + 1));
        }
        addPool(k, prices, faced.lastStart, cut,
                keeps ? m_offcut * static_cast<double>(left) * static_cast<double>(step.across) : 0,
                widths);
    }
    const std::vector<RowBound::Height>& heights = m_rows->heights();
    m_heights.clear();
    for (std::size_t i = 0; behind != nullptr && i < heights.size(); ++i) {
        if (heights[i].atHigh) {
            continue; // goes with the one before
        }
        if (allowedIn(heights[i].low, ripped) != 0) {
            m_heights.push_back(i);
            widest =
                std::max(widest, heights[i].footprint + 1 + heights[i].range + heights[i].carries);
        }
    }

    StackRules rules;
    rules.rows = m_lattice->rows();
    rules.highest = rules.rows + widest + 4;
    rules.ripCost = limits.ripCost;
    rules.keepsBeside = m_offcut > 0 && m_longest >= limits.offcutLength;
    rules.offcutPerRow =
        m_offcut * static_cast<double>(m_longest) * static_cast<double>(step.across);
    rules.offcutRows = static_cast<int>(limits.offcutWidth / step.across);
    rules.least = m_least;
    rules.above = m_above;
    if (behind != nullptr) {
        guessRows(*behind);
    }
    const bool onlyWorth = m_rowsAre == Rows::guessed;
    m_stack.reset(rules, behind != nullptr ? &m_guesses : nullptr, onlyWorth);
    for (int v = 0; v < rules.rows; ++v) {
        addStrips(v);
    }
    if (onlyWorth) {
        m_traced.clear();
        return m_stack.worth();
    }
    if (behind == nullptr) {
        return m_stack.best(m_traced);
    }
    m_stack.keepAsGoodAs(std::max(m_least, m_stack.bestExact()));
    for (int looks = 1;; ++looks) {
        const Cost most = m_stack.best(m_traced);
        if (most <= m_least || (m_interrupt != nullptr && m_interrupt->isCalled())) {
            return most;
        }
        const auto workOut = [&] {
            bool any = false;
            for (const std::size_t index : m_traced) {
                StackedStrip& strip = m_stack.strip(index);
                if (strip.isGuess) {
                    any = true;
                    strip.gain = std::min(strip.gain, rowWorth(strip, prices, ripped));
                    strip.isGuess = false;
                }
            }
            return any;
        };
        if (!workOut()) {
            return most;
        }
        if (looks % looksPerPass == 0) {
            // There are many that are guessed nearly alike: more of them at once.
            m_stack.keepAsGoodAs(std::max(m_least, m_stack.bestExact()));
            m_stack.bestGuesses(rowsPerPass, m_traced);
            workOut();
        }
    }
}

void SectionBound::addStrips(int v) {
    const auto words = static_cast<std::size_t>(m_lattice->words());
    for (std::size_t c = 0; c < m_fixed.size(); ++c) {
        const FixedChoice& choice = m_fixed[c];
        const Word* open = m_open.data() + choice.open;
        for (int level = 0; level < Lattice::levels; ++level) {
            if ((level == 0 || choice.cells->hasLevel[level]) &&
                Lattice::isSet(open + static_cast<std::size_t>(level) * words, v)) {
                m_stack.add({v, v + choice.cells->footprint, choice.carries ? 1 : 0,
                             choice.worth - m_lattice->levelPrice(level),
                             StripLabel::ofFixed(c).code()});
                break;
            }
        }
    }
    for (std::size_t c = 0; c < m_pools.size(); ++c) {
        addStaves(v, c);
    }
}

void SectionBound::addStaves(int v, std::size_t index) {
    const PoolChoice& choice = m_pools[index];
    const Cost* worth = m_worths.data() + choice.firstWorth;
    const int low = v + choice.cells->width;
    m_byStep.clear();
    for (std::size_t p = choice.firstPlace; p < choice.lastPlace; ++p) {
        const PoolPlace& place = m_places[p];
        if (!Lattice::isSet(place.lowOpen, v)) {
            continue;
        }
        const Word* reach = m_reach.data() + place.reach;
        int s = 0;
        int high = low;
        for (std::size_t level = 0; level < Lattice::levels; ++level) {
            const int most = place.upTo[level][v];
            const Cost fills = m_lattice->levelPrice(static_cast<int>(level));
            for (; s < choice.widths && high <= most; ++s, high += choice.cells->stepCells) {
                const auto step = static_cast<std::size_t>(s);
                if (step == m_byStep.size()) {
                    m_byStep.push_back(0);
                }
                if (Lattice::isSet(reach, high)) {
                    m_byStep[step] = std::max(m_byStep[step], worth[step] - fills);
                }
            }
        }
    }
    m_stack.addWiderAndWider({v, low + choice.cells->footprint - choice.cells->width,
                              choice.carries ? 1 : 0, 0, StripLabel::ofPool(index, 0).code()},
                             choice.cells->stepCells, m_byStep);
}

double SectionBound::offcutPerCell(const RowBound::Height& height) const {
    const Limits& limits = m_lattice->context().problem->limits;
    return height.high >= limits.offcutWidth ? m_offcutPerCell * static_cast<double>(height.high)
                                             : 0;
}

void SectionBound::guessRows(const RowBound::From& behind) {
    const std::vector<RowBound::Height>& heights = m_rows->heights();
    const int groups = (m_lattice->rows() + RowBound::groupRows - 1) / RowBound::groupRows;
    m_guesses.reset(RowBound::groupRows);
    for (int group = 0; group < groups; ++group) {
        for (const std::size_t i : m_heights) {
            const RowBound::Height& height = heights[i];
            const auto most = [&](std::size_t index) {
                return (m_offcutPerCell > 0
                            ? behind.mostWithOffcut(group, index, m_range.lastEnd + m_earlier,
                                                    offcutPerCell(height), m_offcutCells)
                            : behind.most(group, index, m_range.lastEnd + m_earlier)) -
                       endCuts(2);
            };
            const Cost row = most(i);
            const Cost rowAtHigh = height.steps > 0 ? most(i + 1) : 0;
            if (std::max(row, rowAtHigh) <= 0) {
                continue;
            }
            m_guesses.add(static_cast<std::uint32_t>(i), height.footprint, height.carries,
                          std::max(row, rowAtHigh) + 1);
            for (int s = 0; s <= height.range; ++s) {
                m_guesses.addGain(
                    height.steps == 0 ? row : row + (rowAtHigh - row) * s / height.steps + 1);
            }
        }
        m_guesses.endGroup();
    }
}

StripPlace SectionBound::placeOf(const StackedStrip& strip) const {
    const StripLabel label(strip.label);
    const RowBound::Height& height = m_rows->heights()[label.index()];
    StripPlace place{strip.v, height.low, height.high};
    if (height.range > 0) {
        const Nm h = m_lattice->step().across;
        place.low = height.low + label.step() * h;
        place.high = std::min(height.high, place.low + h - 1);
    }
    return place;
}

std::span<const RowStep> SectionBound::rowsFrom(int cell, const StackedStrip& strip,
                                                const BoundPrices& prices, bool ripped) {
    const StripLabel label(strip.label);
    const StripPlace place = placeOf(strip);
    const std::uint64_t kinds = allowedIn(place.low, ripped);
    const RowBegin begin = beginAt(cell);
    return m_known.at(
        {strip.v, label.index(), label.step(), begin, kinds}, [&]() -> const auto& {
            ++m_rowsWorkedOut;
            m_strips->at(*m_lattice, place, label.index(), label.step())
                .best(*m_lattice, prices, kinds, begin, m_scratch, m_steps);
            return m_steps;
        });
}

Cost SectionBound::rowWorth(const StackedStrip& strip, const BoundPrices& prices, bool ripped) {
    const std::span<const RowStep> rows = rowsFrom(m_range.firstBegin, strip, prices, ripped);
    const RowBound::Height& height = m_rows->heights()[StripLabel(strip.label).index()];
    return (m_offcutPerCell > 0
                ? worthWithOffcut(rows, m_range.lastEnd, offcutPerCell(height), m_offcutCells)
                : worthUpTo(rows, m_range.lastEnd)) -
           endCuts(1); // the other one is paid
}

} // namespace stavewright::cutting
