#include "core/cutting/BoardBound.h"

#include <algorithm>
#include <map>

#include "core/cutting/WoodAbove.h"

namespace stavewright::cutting {

namespace {

/// Above it, a look counts as several.
constexpr std::int64_t mostWorkOfLook = 4'000;

/// Looks into the ranges of one stretch under one set of prices.
class Looker {
  public:
    Looker(BoundStretch& stretch, const BoundPrices& prices, double offcut,
           const Interrupt& interrupt)
        : m_stretch(&stretch)
        , m_interrupt(&interrupt)
        , m_prices(&prices)
        , m_offcut(offcut)
        , m_wood(stretch.lattice(), stretch.usable(), prices) {
        for (std::size_t l = 0; l < stretch.layers(); ++l) {
            BoundStretch::Layer& layer = stretch.layer(l);
            m_sections.emplace_back(layer.lattice, layer.rows, layer.strips).watch(interrupt);
        }
        m_from.resize(stretch.layers());
    }

    Cost most(const SectionRange& cells, SectionBound::Rows rows, Cost least, std::int64_t& work) {
        const std::size_t layer = m_stretch->layerFor(cells);
        work += m_stretch->lattice().rows();
        const auto [section, shifted] = sectionOf(cells, layer);
        if (least > 0) {
            m_wood.of(cells.firstBegin, cells.lastEnd, cells.lastEnd - cells.firstBegin, m_above);
        }
        const Cost most =
            section->most(shifted, *m_prices, rowsOf(cells, layer, work), m_offcut, rows,
                          std::max<Cost>(0, least), least > 0 ? &m_above : nullptr);
        work += section->takeWork();
        return most;
    }

    /// Of the range that most() was asked for last.
    std::optional<SectionBound::Room> room(const SectionRange& cells) {
        const auto [section, shifted] = sectionOf(cells, m_stretch->layerFor(cells));
        std::optional<SectionBound::Room> room = section->room();
        if (room) {
            room->begin += cells.firstBegin - shifted.firstBegin;
            room->end += cells.firstBegin - shifted.firstBegin;
        }
        return room;
    }

    BoundSection found(const SectionRange& cells, std::int64_t& work) {
        const std::size_t layer = m_stretch->layerFor(cells);
        static_cast<void>(most(cells, SectionBound::Rows::exact, 0, work));
        return sectionOf(cells, layer).first->found(*m_prices, rowsOf(cells, layer, work));
    }

  private:
    /// Who looks into the range, and the range in the cells of that lattice.
    std::pair<SectionBound*, SectionRange> sectionOf(const SectionRange& cells, std::size_t layer) {
        BoundStretch::Group* group = m_stretch->groupOf(cells);
        if (group == nullptr) {
            return {&m_sections[layer], cells};
        }
        const auto [known, isNew] = m_byGroup.try_emplace(
            group, group->lattice, m_stretch->layer(layer).rows, group->strips, group->first);
        known->second.watch(*m_interrupt);
        SectionRange shifted = cells;
        shifted.firstBegin -= group->first;
        shifted.lastBegin -= group->first;
        shifted.firstEnd -= group->first;
        shifted.lastEnd -= group->first;
        return {&known->second, shifted};
    }

    /// Null: no strip of the range can hold two blanks.
    const RowBound::From* rowsOf(const SectionRange& cells, std::size_t layer, std::int64_t& work) {
        if (cells.lastEnd - cells.firstBegin < m_stretch->twoShortest()) {
            return nullptr;
        }
        RowBound::From& known = m_from[layer][cells.firstBegin];
        const int ends = m_stretch->lattice().lastEnd();
        if (known.lastEnd() < std::min(cells.lastEnd, ends)) {
            // Longer ones that begin here may be asked for as well.
            const int length = cells.lastEnd - cells.firstBegin;
            known = m_stretch->layer(layer).rows.from(cells.firstBegin, cells.lastEnd + length / 4,
                                                      *m_prices, work);
        }
        return &known;
    }

    BoundStretch* m_stretch;
    const Interrupt* m_interrupt;
    const BoundPrices* m_prices;
    double m_offcut;
    WoodAbove m_wood;
    std::vector<Cost> m_above;
    std::vector<SectionBound> m_sections; ///< by layer
    std::map<const BoundStretch::Group*, SectionBound> m_byGroup;
    std::vector<std::map<int, RowBound::From>> m_from; ///< by layer and first cell
};

/// Cuts the range in parts; false when nothing in it can be worth more than is known.
bool cutUp(BoundRanges& ranges, std::size_t index, Looker& looker, int& looks, std::int64_t& work) {
    const BoundRange range = ranges.at(index);
    if (range.isSettled) {
        return false;
    }
    if (!range.room || range.cells.isOne()) {
        return ranges.halve(index);
    }
    // Every section that begins by then and ends there or behind holds what the range was found to
    // be worth. Is it worth as much when it is no longer than that?
    ++looks;
    const SectionBound::Room& room = *range.room;
    const Cost most = std::min(range.most, looker.most({room.begin, room.begin, room.end, room.end},
                                                       SectionBound::Rows::exact, 0, work));
    if (most < range.most && range.isRest) {
        return ranges.halve(index);
    }
    ranges.split(index, room, most);
    return true;
}

/// Looks more closely into a range; false when that was done before.
bool lookInto(BoundRange& range, Looker& looker, Cost least, std::int64_t& work) {
    using Known = BoundRange::Known;
    if (range.known == Known::exactly) {
        return false;
    }
    const bool exactly = range.known == Known::roughly;
    range.known = exactly ? Known::exactly : Known::roughly;
    const Cost most =
        looker.most(range.cells, exactly ? SectionBound::Rows::exact : SectionBound::Rows::guessed,
                    least, work);
    range.most = std::min(range.most, most);
    range.room = looker.room(range.cells);
    return true;
}

} // namespace

BoardBound::BoardBound(const Context& context, const BoardModel& model, const Interrupt* interrupt)
    : m_context(&context) {
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.length().inNanometres() >= context.shortest) {
            m_parts.push_back(
                std::make_unique<Part>(Part{BoundStretch(context, model, stretch, interrupt), {}}));
        }
    }
}

Cost BoardBound::most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                      std::int64_t& work, BoundChain* chain) {
    const BoundPrices prices(*m_context->problem, values);
    Cost all = 0;
    for (const auto& part : m_parts) {
        BoundRanges ranges(part->stretch, prices, part->known);
        Looker looker(part->stretch, prices, ranges.offcut(), interrupt);
        std::vector<std::size_t> best;
        Cost worth = 0;
        int looks = 0;
        const std::int64_t workBefore = work;
        // Into some boards a look takes as long as many.
        const auto spent = [&] {
            return std::max<std::int64_t>(looks, (work - workBefore) / mostWorkOfLook);
        };
        for (;;) {
            worth = ranges.best(best);
            work += static_cast<std::int64_t>(ranges.size() / 64);
            if (worth <= goal.enough || spent() >= goal.looks || interrupt.isCalled()) {
                break;
            }
            bool settled = true;
            for (const std::size_t index : best) {
                if (interrupt.isCalled()) {
                    break;
                }
                BoundRange& range = ranges.at(index);
                // By as much less the chain would no longer matter.
                if (lookInto(range, looker, range.most - (worth - goal.enough), work)) {
                    ++looks;
                    settled = false;
                }
            }
            for (std::size_t i = 0; settled && i < best.size(); ++i) {
                settled = !cutUp(ranges, best[i], looker, looks, work);
            }
            if (settled) {
                break;
            }
        }
        ranges.leaveTo(part->known);
        all += worth;
        if (chain == nullptr || interrupt.isCalled()) {
            continue;
        }
        chain->looks += static_cast<int>(std::min<std::int64_t>(spent(), goal.looks));
        for (auto index = best.rbegin(); index != best.rend(); ++index) {
            const BoundRange& range = ranges.at(*index);
            chain->isWorkedOut = chain->isWorkedOut && range.known == BoundRange::Known::exactly;
            chain->sections.push_back(looker.found(range.cells, work));
        }
    }
    return all;
}

} // namespace stavewright::cutting
