#include "core/cutting/BoardTable.h"

#include <algorithm>
#include <limits>

#include "core/cutting/Places.h"

namespace stavewright::cutting {

namespace {

/// `label` with the next piece.
Label with(const Label& label, const Yield& yield, Cost cost, int piece) {
    Label next;
    next.yield = label.yield + yield;
    next.cost = label.cost + cost;
    next.previous = label.node;
    next.piece = piece;
    return next;
}

void append(std::vector<Label>& to, const std::vector<Label>& from, Cost dearer) {
    for (Label label : from) {
        label.cost += dearer;
        to.push_back(label);
    }
}

} // namespace

BoardTable::BoardTable(const Context& context, const BoardModel& model, const YieldSpace& space,
                       const std::vector<PlaceItem>& items, const std::vector<Cost>& ceiling)
    : m_context(&context)
    , m_model(&model)
    , m_space(&space)
    , m_items(&items)
    , m_ceiling(&ceiling)
    , m_cheapest(space) {}

bool BoardTable::isOver() const { return m_work > m_mostWork || m_interrupt->isCalled(); }

bool BoardTable::isWorth(const Label& label, Cost cut) const {
    // Without the pieces so far the next one may need a cut of its own.
    return label.cost <= (*m_ceiling)[label.yield.index] + cut;
}

std::uint64_t BoardTable::allowedItems(const Facing& facing, bool ripped, Nm width) const {
    const Limits& limits = m_context->problem->limits;
    std::uint64_t allowed = 0;
    for (std::size_t i = 0; i < m_items->size(); ++i) {
        const PlaceItem& item = (*m_items)[i];
        const Nm spare = width - item.width;
        const bool fits = spare == 0 || (spare > 0 && spare >= limits.ripKerf &&
                                         item.width >= limits.narrowestRip);
        if (fits && facing.allows(static_cast<std::size_t>(item.kind), ripped, width)) {
            allowed |= std::uint64_t{1} << i;
        }
    }
    return allowed;
}

void BoardTable::fillRow(PlaceGrid& grid, std::size_t from, Nm v0, Nm v1, Row& row) {
    struct Next {
        std::size_t item = 0;
        std::size_t place = 0;
        std::size_t high = 0;
        Cost cost = 0;
    };
    const Limits& limits = m_context->problem->limits;
    const std::vector<Nm>& lows = grid.lows();
    const std::vector<Nm>& highs = grid.highs();
    row.ended.assign(highs.size(), {});
    std::vector<Label> loose(1); // nothing yet, or ended with waste behind
    std::vector<Label> start;
    std::vector<Next> next;
    std::size_t behind = 0;
    for (std::size_t low = from; low < lows.size(); ++low) {
        next.clear();
        for (std::size_t i = 0; i < m_items->size(); ++i) {
            const int high = grid.endOf(i, low);
            if ((row.allowed >> i & 1) == 0 || high < 0) {
                continue;
            }
            const Nm width = (*m_items)[i].width;
            std::optional<Next> best;
            for (const Nm v : {v0, v1 - width}) {
                const std::size_t place = grid.placeAt(v);
                const PlaceGrid::Fit& fit = grid.fit(i, low, place);
                const Cost cost =
                    fit.cost + limits.crosscutCost + (width < v1 - v0 ? limits.ripCost : 0);
                if (fit.cost >= 0 && (!best || cost < best->cost)) {
                    best = Next{i, place, static_cast<std::size_t>(high), cost};
                }
                if (width == v1 - v0) {
                    break;
                }
            }
            if (best) {
                next.push_back(*best);
            }
        }
        ++m_work;
        if (next.empty()) {
            continue;
        }
        start.clear();
        bool grown = false;
        for (; behind < highs.size() && highs[behind] + limits.stripCrosscutKerf <= lows[low];
             ++behind) {
            m_cheapest.settle(row.ended[behind], m_rowNodes);
            if (highs[behind] + limits.stripCrosscutKerf == lows[low]) {
                append(start, row.ended[behind], 0);
            }
            append(loose, row.ended[behind], 0);
            grown = true;
        }
        if (grown) {
            m_cheapest.settle(loose);
        }
        append(start, loose, low == from ? 0 : limits.crosscutCost);
        m_cheapest.settle(start);
        m_work += static_cast<std::int64_t>(start.size() * next.size());
        for (const Next& piece : next) {
            const Yield& yield = (*m_items)[piece.item].yield;
            const auto fit = static_cast<int>(
                (piece.item * lows.size() + low) * grid.places().size() + piece.place);
            for (const Label& label : start) {
                if (!m_space->holds(label.yield + yield)) {
                    continue;
                }
                const Label longer = with(label, yield, piece.cost, fit);
                if (isWorth(longer, limits.crosscutCost)) {
                    row.ended[piece.high].push_back(longer);
                }
            }
        }
    }
    for (; behind < highs.size(); ++behind) {
        m_cheapest.settle(row.ended[behind], m_rowNodes);
    }
}

BoardTable::Row& BoardTable::rowOf(PlaceGrid& grid, std::size_t from, std::size_t bottom,
                                   std::size_t top, std::uint64_t allowed) {
    std::vector<Row>& known = m_rows[bottom * grid.tops().size() + top];
    for (Row& row : known) {
        if (row.allowed == allowed) {
            return row;
        }
    }
    Row& row = known.emplace_back();
    row.allowed = allowed;
    fillRow(grid, from, grid.bottoms()[bottom], grid.tops()[top], row);
    return row;
}

void BoardTable::stack(PlaceGrid& grid, std::size_t from, std::size_t high, const Facing& facing,
                       bool ripped, std::vector<Label>& labels) {
    const Limits& limits = m_context->problem->limits;
    const std::vector<Nm>& bottoms = grid.bottoms();
    const std::vector<Nm>& tops = grid.tops();
    std::vector<std::vector<Label>> ended(tops.size());
    std::vector<Label> loose(1);
    std::vector<Label> start;
    std::vector<Label> strip;
    std::size_t behind = 0;
    bool flush = false;
    for (std::size_t bottom = 0; bottom < bottoms.size() && !isOver(); ++bottom) {
        start.clear();
        for (; behind < tops.size() && tops[behind] + limits.ripKerf <= bottoms[bottom]; ++behind) {
            m_cheapest.settle(ended[behind], m_stackNodes);
            if (tops[behind] + limits.ripKerf == bottoms[bottom]) {
                append(start, ended[behind], 0);
            }
            append(loose, ended[behind], 0);
        }
        m_cheapest.settle(loose);
        append(start, loose, limits.ripCost);
        m_cheapest.settle(start);
        for (std::size_t top = 0; top < tops.size(); ++top) {
            const Nm width = tops[top] - bottoms[bottom];
            if (width < std::max<Nm>(1, limits.narrowestRip)) {
                continue;
            }
            const std::uint64_t allowed = allowedItems(facing, ripped, width);
            if (allowed == 0) {
                continue;
            }
            Row& row = rowOf(grid, from, bottom, top, allowed);
            bool grown = false;
            for (; row.merged < high; ++row.merged) {
                append(row.below, row.ended[row.merged], 0);
                grown = grown || !row.ended[row.merged].empty();
            }
            if (grown) {
                m_cheapest.settle(row.below);
            }
            // A blank that ends with the section needs no cut of its own.
            strip = row.below;
            append(strip, row.ended[high], -limits.crosscutCost);
            m_cheapest.settle(strip);
            flush = flush || !row.ended[high].empty();
            m_work += static_cast<std::int64_t>(start.size() * strip.size()) + 1;
            for (const Label& blanks : strip) {
                const auto end = static_cast<int>(m_strips.size());
                bool used = false;
                for (const Label& label : start) {
                    if (!m_space->holds(label.yield + blanks.yield)) {
                        continue;
                    }
                    const Label higher =
                        with(label, blanks.yield, blanks.cost + limits.ripCost, end);
                    if (isWorth(higher, limits.ripCost)) {
                        ended[top].push_back(higher);
                        used = true;
                    }
                }
                if (used) {
                    m_strips.push_back({blanks.node, bottom, top});
                }
            }
        }
    }
    // A section that ends behind all its blanks is as good without that end, unless a machine
    // needs the length.
    if (!flush && limits.leastFacedLength == 0) {
        return;
    }
    for (std::vector<Label>& list : ended) {
        m_cheapest.settle(list, m_stackNodes);
        append(labels, list, 0);
    }
    m_cheapest.settle(labels);
}

template <class Found>
bool BoardTable::sectionsFrom(std::size_t gridIndex, std::size_t from,
                              std::optional<std::size_t> only, const Found& found) {
    PlaceGrid& grid = m_grids[gridIndex];
    m_rows.assign(grid.bottoms().size() * grid.tops().size(), {});
    m_rowNodes.clear();
    m_stackNodes.clear();
    m_strips.clear();
    std::vector<Label> labels;
    for (std::size_t high = 0; high < grid.highs().size(); ++high) {
        const Nm x0 = grid.lows()[from];
        const Nm x1 = grid.highs()[high];
        if (x1 - x0 < m_context->shortest || (only && *only != high)) {
            continue;
        }
        const Facing facing(*m_context, *m_model, SectionShape(*m_model, x0, x1));
        for (const bool ripped : {false, true}) {
            if (ripped ? !facing.mayRipped() : !facing.mayWhole()) {
                continue;
            }
            labels.clear();
            stack(grid, from, high, facing, ripped, labels);
            if (isOver()) {
                return false;
            }
            if (!labels.empty()) {
                found(high, ripped, labels);
            }
        }
    }
    return true;
}

bool BoardTable::fill(std::int64_t mostWork, const Interrupt& interrupt) {
    m_mostWork = mostWork;
    m_interrupt = &interrupt;
    for (const Stretch& stretch : m_model->freeStretches()) {
        if (stretch.length().inNanometres() < m_context->shortest) {
            continue;
        }
        auto grid = PlaceGrid::of(*m_context, *m_model, stretch, *m_items, {});
        if (!grid) {
            return false;
        }
        m_grids.push_back(std::move(*grid));
    }
    const Limits& limits = m_context->problem->limits;
    std::vector<Label> loose(1);
    for (std::size_t s = 0; s < m_grids.size(); ++s) {
        const std::vector<Nm>& lows = m_grids[s].lows();
        const std::vector<Nm>& highs = m_grids[s].highs();
        std::vector<std::vector<Label>> ended(highs.size());
        std::size_t behind = 0;
        for (std::size_t low = 0; low < lows.size(); ++low) {
            std::vector<Label> start;
            for (; behind < highs.size() && highs[behind] + limits.crosscutKerf <= lows[low];
                 ++behind) {
                m_cheapest.settle(ended[behind], m_nodes);
                if (highs[behind] + limits.crosscutKerf == lows[low]) {
                    append(start, ended[behind], 0);
                }
                append(loose, ended[behind], 0);
            }
            m_cheapest.settle(loose);
            append(start, loose, lows[low] == m_model->size().xBegin ? 0 : limits.crosscutCost);
            m_cheapest.settle(start);
            const bool done = sectionsFrom(
                s, low, {}, [&](std::size_t high, bool ripped, const std::vector<Label>& labels) {
                    const Cost cut = highs[high] == m_model->size().xEnd ? 0 : limits.crosscutCost;
                    m_work += static_cast<std::int64_t>(start.size() * labels.size());
                    for (const Label& section : labels) {
                        const auto end = static_cast<int>(m_sections.size());
                        bool used = false;
                        for (const Label& label : start) {
                            if (!m_space->holds(label.yield + section.yield)) {
                                continue;
                            }
                            const Label longer =
                                with(label, section.yield, section.cost + cut, end);
                            if (isWorth(longer, limits.crosscutCost)) {
                                ended[high].push_back(longer);
                                used = true;
                            }
                        }
                        if (used) {
                            m_sections.push_back({s, low, high, ripped, section.yield});
                        }
                    }
                });
            if (!done) {
                return false;
            }
        }
        for (; behind < highs.size(); ++behind) {
            m_cheapest.settle(ended[behind], m_nodes);
            append(loose, ended[behind], 0);
        }
        m_cheapest.settle(loose);
    }
    m_labels = std::move(loose);
    std::erase_if(m_labels, [](const Label& label) { return label.yield == Yield{}; });
    return true;
}

PlacedSection BoardTable::cutSection(const SectionEnd& end) {
    PlacedSection section;
    section.x0 = m_grids[end.grid].lows()[end.low];
    section.x1 = m_grids[end.grid].highs()[end.high];
    section.frame = SectionShape(*m_model, section.x0, section.x1).frame();
    section.roughRippedFirst = end.ripped;
    sectionsFrom(end.grid, end.low, end.high,
                 [&](std::size_t, bool ripped, const std::vector<Label>& labels) {
                     const auto at =
                         std::find_if(labels.begin(), labels.end(),
                                      [&](const Label& label) { return label.yield == end.yield; });
                     if (ripped != end.ripped || at == labels.end()) {
                         return;
                     }
                     const PlaceGrid& grid = m_grids[end.grid];
                     const std::size_t lows = grid.lows().size();
                     for (int node = at->node; node >= 0;
                          node = m_stackNodes[static_cast<std::size_t>(node)].previous) {
                         const StripEnd& from = m_strips[static_cast<std::size_t>(
                             m_stackNodes[static_cast<std::size_t>(node)].piece)];
                         PlacedStrip strip{grid.bottoms()[from.bottom], grid.tops()[from.top], {}};
                         for (int blank = from.row; blank >= 0;
                              blank = m_rowNodes[static_cast<std::size_t>(blank)].previous) {
                             const auto fit = static_cast<std::size_t>(
                                 m_rowNodes[static_cast<std::size_t>(blank)].piece);
                             const std::size_t place = fit % grid.places().size();
                             const std::size_t low = fit / grid.places().size() % lows;
                             strip.blanks.push_back(grid.blank(fit / grid.places().size() / lows,
                                                               low, place, section.x0));
                         }
                         std::reverse(strip.blanks.begin(), strip.blanks.end());
                         section.strips.push_back(std::move(strip));
                     }
                     std::reverse(section.strips.begin(), section.strips.end());
                 });
    return section;
}

Pattern BoardTable::cut(const Label& label) {
    Pattern pattern;
    pattern.board = m_model->index();
    const Interrupt never({}, 0); // little work, and all of it was done before
    m_interrupt = &never;
    m_mostWork = std::numeric_limits<std::int64_t>::max();
    for (int node = label.node; node >= 0;
         node = m_nodes[static_cast<std::size_t>(node)].previous) {
        pattern.sections.push_back(cutSection(
            m_sections[static_cast<std::size_t>(m_nodes[static_cast<std::size_t>(node)].piece)]));
    }
    std::reverse(pattern.sections.begin(), pattern.sections.end());
    m_interrupt = nullptr;
    return pattern;
}

} // namespace stavewright::cutting
