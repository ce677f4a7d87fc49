#include "core/cutting/BoardBound.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "core/cutting/Leaning.h"
#include "core/cutting/WoodAbove.h"

namespace stavewright::cutting {

namespace {

/// Above it, a look counts as several.
constexpr std::int64_t mostWorkOfLook = 4'000;

/// Chains between two looks at which ranges can still matter.
constexpr int chainsPerLeaving = 16;

/// Looks into the ranges of one stretch under one set of prices.
class Looker {
  public:
    Looker(BoundStretch& stretch, const BoundPrices& prices, double offcut)
        : m_stretch(&stretch)
        , m_prices(&prices)
        , m_offcut(offcut)
        , m_wood(stretch.lattice(), stretch.usable(), prices) {
        const Cost crosscut = stretch.context().problem->limits.crosscutCost;
        if (crosscut > 0) {
            m_lessCrosscut.emplace(prices.less(crosscut));
            m_leaning.emplace(stretch.lattice(), stretch.usable(), *m_lessCrosscut);
        }
        for (std::size_t l = 0; l < stretch.layers(); ++l) {
            BoundStretch::Layer& layer = stretch.layer(l);
            m_sections.emplace_back(layer.lattice, layer.rows, layer.strips);
        }
        m_from.resize(stretch.layers());
    }

    /// From now on.
    void watch(const Interrupt& interrupt) {
        m_interrupt = &interrupt;
        for (SectionBound& section : m_sections) {
            section.watch(interrupt);
        }
        for (auto& [group, section] : m_byGroup) {
            section.watch(interrupt);
        }
    }

    Cost most(const SectionRange& cells, SectionBound::Rows rows, Cost least, std::int64_t& work) {
        const std::size_t layer = m_stretch->layerFor(cells);
        work += m_stretch->lattice().rows();
        const auto [section, shifted] = sectionOf(cells, layer);
        if (least > 0) {
            WoodAbove& wood =
                m_leaning && allLean(m_stretch->lattice(), cells) ? *m_leaning : m_wood;
            wood.of(cells.firstBegin, cells.lastEnd, cells.lastEnd - cells.firstBegin, m_above);
        }
        const Cost most =
            section->most(shifted, *m_prices, rowsOf(cells, layer, work), m_offcut, rows,
                          std::max<Cost>(0, least), least > 0 ? &m_above : nullptr);
        work += section->takeWork();
        return most;
    }

    /// Nothing is asked for a while: there may be hundreds of sections' lattices.
    void rest() {
        for (SectionBound& section : m_sections) {
            section.rest();
        }
        for (auto& [group, section] : m_byGroup) {
            section.rest();
        }
    }

    /// Forgets the guessed rows where they take more bytes.
    void keepAtMost(std::size_t bytes) {
        if (m_bytes <= bytes) {
            return;
        }
        for (auto& byCell : m_from) {
            byCell.clear();
        }
        m_bytes = 0;
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
            m_bytes -= known.bytes();
            known = m_stretch->layer(layer).rows.from(cells.firstBegin, cells.lastEnd + length / 4,
                                                      *m_prices, work);
            m_bytes += known.bytes();
        }
        return &known;
    }

    BoundStretch* m_stretch;
    const Interrupt* m_interrupt = nullptr;
    const BoundPrices* m_prices;
    double m_offcut;
    WoodAbove m_wood;
    std::optional<BoundPrices> m_lessCrosscut;
    std::optional<WoodAbove> m_leaning; ///< every blank costs a crosscut at least
    std::vector<Cost> m_above;
    std::vector<SectionBound> m_sections; ///< by layer
    std::map<const BoundStretch::Group*, SectionBound> m_byGroup;
    std::vector<std::map<int, RowBound::From>> m_from; ///< by layer and first cell
    std::size_t m_bytes = 0;                           ///< that they take
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

/// What one stretch is worth at most under one set of prices, so far.
class Asking {
  public:
    Asking(BoundStretch& stretch, const Problem& problem, const Values& values,
           const KnownRanges& known)
        : m_prices(problem, values)
        , m_ranges(stretch, m_prices, known)
        , m_looker(stretch, m_prices, m_ranges.offcut()) {}

    /// Adds to `looksTaken` what it takes.
    Cost most(const BoundGoal& goal, const Interrupt& interrupt, int& looksTaken,
              std::int64_t& work) {
        m_looker.watch(interrupt);
        m_ranges.expect(goal.enough);
        int looks = 0;
        const std::int64_t workBefore = work;
        // Into some boards a look takes as long as many.
        const auto spent = [&] {
            return std::max<std::int64_t>(looks, (work - workBefore) / mostWorkOfLook);
        };
        Cost worth = 0;
        for (;;) {
            worth = m_ranges.best(m_chain);
            if (++m_chains % chainsPerLeaving == 0) {
                m_ranges.leaveOut(goal.enough);
            }
            work += static_cast<std::int64_t>(m_ranges.size() / 64);
            if (worth <= goal.enough || spent() >= goal.looks || interrupt.isCalled()) {
                break;
            }
            bool settled = true;
            for (const std::size_t index : m_chain) {
                if (interrupt.isCalled()) {
                    break;
                }
                BoundRange& range = m_ranges.at(index);
                // By as much less the chain would no longer matter.
                if (lookInto(range, m_looker, range.most - (worth - goal.enough), work)) {
                    ++looks;
                    settled = false;
                }
            }
            for (std::size_t i = 0; settled && i < m_chain.size(); ++i) {
                settled = !cutUp(m_ranges, m_chain[i], m_looker, looks, work);
            }
            if (settled) {
                break;
            }
        }
        m_looker.keepAtMost(goal.mostKept);
        m_looker.rest();
        looksTaken += static_cast<int>(std::min<std::int64_t>(spent(), goal.looks));
        return worth;
    }

    /// Appends what the last most() rests on.
    void restsOn(BoundChain& chain, const Interrupt& interrupt, std::int64_t& work) {
        m_looker.watch(interrupt);
        for (auto index = m_chain.rbegin(); index != m_chain.rend(); ++index) {
            const BoundRange& range = m_ranges.at(*index);
            chain.isWorkedOut = chain.isWorkedOut && (range.isSettled || range.cells.isOne()) &&
                                range.known == BoundRange::Known::exactly;
            chain.sections.push_back(m_looker.found(range.cells, work));
            const SectionRange& cells = range.cells;
            const bool hasShorter = range.isSettled && !cells.isOne();
            chain.shortest.push_back(hasShorter ? m_looker.found({cells.lastBegin, cells.lastBegin,
                                                                  cells.firstEnd, cells.firstEnd},
                                                                 work)
                                                : chain.sections.back());
        }
        m_looker.rest();
    }

    void leaveTo(KnownRanges& known) const { m_ranges.leaveTo(known); }
    [[nodiscard]] const WoodByCell& wood() const { return m_ranges.wood(); }

  private:
    BoundPrices m_prices;
    BoundRanges m_ranges;
    Looker m_looker;
    std::vector<std::size_t> m_chain; ///< from the last to the first
    int m_chains = 0;                 ///< that were looked for
};

} // namespace

/// A free stretch of the board.
class BoardBound::Part {
  public:
    Part(const Context& context, const BoardModel& model, const Stretch& stretch,
         const Interrupt* interrupt)
        : m_stretch(context, model, stretch, interrupt) {}

    /// At these prices.
    Asking& asking(const Problem& problem, const Values& values) {
        if (m_asking == nullptr) {
            m_asking = std::make_unique<Asking>(m_stretch, problem, values, m_known);
        }
        return *m_asking;
    }
    void tell(SectionCeilings& ceilings) const {
        if (m_asking != nullptr) {
            KnownRanges known;
            m_asking->leaveTo(known);
            ceilings.add(m_stretch.lattice(), m_asking->wood(), std::move(known));
        }
    }
    void leavePrices() {
        if (m_asking != nullptr) {
            m_asking->leaveTo(m_known);
            m_asking.reset();
        }
    }

  private:
    BoundStretch m_stretch;
    KnownRanges m_known;
    std::unique_ptr<Asking> m_asking;
};

BoardBound::BoardBound(const Context& context, const BoardModel& model, const Interrupt* interrupt)
    : m_context(&context) {
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.length().inNanometres() >= context.shortest) {
            m_parts.push_back(std::make_unique<Part>(context, model, stretch, interrupt));
        } else if (stretch.length().inNanometres() >= context.problem->limits.offcutLength) {
            const Nm widest = widestBetween(model.edges(), stretch.from.inNanometres(),
                                            stretch.to.inNanometres());
            m_kept += static_cast<Cost>(
                std::ceil(offcutWorth(context, model) * static_cast<double>(widest) *
                          static_cast<double>(stretch.length().inNanometres())));
        }
    }
}

BoardBound::~BoardBound() = default;

Cost BoardBound::most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                      std::int64_t& work) {
    if (m_values != values) {
        leavePrices();
        m_values = values;
    }
    m_looks = 0;
    Cost all = m_kept;
    for (const auto& part : m_parts) {
        all += part->asking(*m_context->problem, values).most(goal, interrupt, m_looks, work);
    }
    return all;
}

BoundChain BoardBound::restsOn(const Interrupt& interrupt, std::int64_t& work) {
    BoundChain chain;
    for (const auto& part : m_parts) {
        if (m_values && !interrupt.isCalled()) {
            part->asking(*m_context->problem, *m_values).restsOn(chain, interrupt, work);
        }
    }
    if (chain.shortest == chain.sections) {
        chain.shortest.clear();
    }
    return chain;
}

SectionCeilings BoardBound::ceilings() const {
    SectionCeilings ceilings;
    for (const auto& part : m_parts) {
        part->tell(ceilings);
    }
    return ceilings;
}

void BoardBound::leavePrices() {
    for (const auto& part : m_parts) {
        part->leavePrices();
    }
    m_values.reset();
}

} // namespace stavewright::cutting
