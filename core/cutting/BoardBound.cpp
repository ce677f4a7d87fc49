#include "core/cutting/BoardBound.h"

#include <algorithm>
#include <limits>
#include <map>

#include "core/cutting/EdgeSlack.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;
constexpr int mostRangeCells = 16; ///< of the ranges that one begins with
constexpr int groupCells = 32;     ///< of sections that share a lattice where the edge bends

} // namespace

Nm stepAlong(const Problem& problem) {
    // Least loss over the kinds, in parts of their lengths; coarser steps are quicker, so they may
    // lose a little more.
    Nm best = 3'175'000;
    double bestLoss = 1e9;
    for (Nm step = 2'500'000; step <= 4'000'000; step += 25'000) {
        double loss = 0;
        for (const Kind& kind : problem.kinds) {
            const Nm taken = kind.length + problem.limits.crosscutKerf;
            loss += static_cast<double>(taken % step) / static_cast<double>(taken);
        }
        loss *= 4'000'000.0 / static_cast<double>(step);
        if (loss < bestLoss) {
            bestLoss = loss;
            best = step;
        }
    }
    return best;
}

class BoardBound::Part {
  public:
    Part(const Context& context, const BoardModel& model, const Stretch& stretch);
    [[nodiscard]] Cost most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                            std::int64_t& work, std::vector<BoundSection>* chain) const;

  private:
    /// Sections up to a length; longer ones leave more slack where the near edge bends.
    struct Layer {
        Layer(const Context& context, const BoardModel& model, const Stretch& stretch,
              LatticeStep step, EdgeSlack slack, Nm longest)
            : lattice(context, model, stretch, step, std::move(slack))
            , rows(lattice)
            , longestCells(static_cast<int>(longest / step.along)) {}
        Lattice lattice;
        RowBound rows;
        int longestCells;
        mutable StripRows strips;
    };
    /// Sections that begin in one group of cells and end in another: where the near edge bends,
    /// their frames are nearly alike, so they leave less slack.
    struct Group {
        Group(const Context& context, const BoardModel& model, const Stretch& stretch,
              LatticeStep step, const SectionSpan& span, int firstCell)
            : lattice(context, model, stretch, step, EdgeSlack(model, span, context.narrowest))
            , first(firstCell) {}
        Lattice lattice;
        StripRows strips;
        int first; ///< cell of the whole lattice that it begins with
    };
    class Chain;

    /// The group that all sections of a range are of; null where there is none, or no need.
    [[nodiscard]] Group* groupOf(const SectionRange& range) const;
    [[nodiscard]] const Layer& layerFor(const SectionRange& range) const {
        for (const auto& layer : m_layers) {
            if (range.lastEnd - range.firstBegin + 1 <= layer->longestCells) {
                return *layer;
            }
        }
        return *m_layers.back();
    }

    const Context* m_context;
    const BoardModel* m_model;
    std::vector<std::unique_ptr<Layer>> m_layers;                           ///< by ascending length
    mutable std::map<std::pair<int, int>, std::unique_ptr<Group>> m_groups; ///< met so far
    int m_shortest = 0; ///< cells of the shortest kind
    int m_twoShortest = 0;
    /// Of the ranges that one begins with; no section begins and ends in one.
    int m_rangeCells = 1;
    int m_cells = 0;
    int m_lastEnd = 0;
};

BoardBound::Part::Part(const Context& context, const BoardModel& model, const Stretch& stretch)
    : m_context(&context)
    , m_model(&model) {
    const Problem& problem = *context.problem;
    const Limits& limits = problem.limits;
    LatticeStep step;
    step.along = stepAlong(problem);
    step.across = stepAcross(problem);
    Nm longest = 0;
    Nm shortest = stretch.length().inNanometres() + 1;
    for (const Kind& kind : problem.kinds) {
        if (suits(kind, model.board()) && kind.demand > 0) {
            longest = std::max(longest, kind.length);
            shortest = std::min(shortest, kind.length);
        }
    }
    const Nm all = stretch.length().inNanometres() + limits.crosscutKerf + 2 * step.along;
    EdgeSlack whole(model, stretch, all, context.narrowest);
    const Nm longer = whole.longer();
    if (!whole.isNone()) {
        const Nm most = longest + limits.crosscutKerf + (2 * mostRangeCells + 2) * step.along;
        if (most < all) {
            m_layers.push_back(
                std::make_unique<Layer>(context, model, stretch, step,
                                        EdgeSlack(model, stretch, most, context.narrowest), most));
        }
    }
    m_layers.push_back(
        std::make_unique<Layer>(context, model, stretch, step, std::move(whole), all));
    const Lattice& lattice = m_layers.back()->lattice;
    m_cells = lattice.cells();
    m_lastEnd = lattice.lastEnd();
    m_shortest = static_cast<int>((shortest + limits.crosscutKerf - longer) / step.along);
    m_rangeCells = std::clamp(m_shortest, 1, mostRangeCells);
    m_twoShortest =
        m_shortest + static_cast<int>((shortest + limits.stripCrosscutKerf - longer) / step.along);
}

BoardBound::Part::Group* BoardBound::Part::groupOf(const SectionRange& range) const {
    const Lattice& lattice = m_layers.back()->lattice;
    const int begin = range.firstBegin / groupCells;
    const int end = range.firstEnd / groupCells;
    if (lattice.slack().isNone() || range.lastBegin - range.firstBegin >= mostRangeCells / 2 ||
        range.lastBegin / groupCells != begin || range.lastEnd / groupCells != end) {
        return nullptr;
    }
    std::unique_ptr<Group>& group = m_groups[{begin, end}];
    if (group == nullptr) {
        const Nm g = lattice.step().along;
        const Nm stretchEnd = lattice.end();
        SectionSpan span;
        span.firstBegin = lattice.xOf(begin * groupCells);
        span.lastBegin = std::min(stretchEnd, lattice.xOf((begin + 1) * groupCells));
        // The crosscut behind a section ends in the group's cells.
        span.firstEnd = std::clamp(lattice.begin() + end * groupCells * g -
                                       m_context->problem->limits.crosscutKerf,
                                   span.firstBegin, stretchEnd);
        span.lastEnd = std::min(stretchEnd, lattice.begin() + (end + 1) * groupCells * g);
        const Stretch part{Length::nanometres(span.firstBegin), Length::nanometres(span.lastEnd)};
        group = std::make_unique<Group>(*m_context, *m_model, part, lattice.step(), span,
                                        begin * groupCells);
    }
    return group.get();
}

/// Finds the best chain of ranges.
class BoardBound::Part::Chain {
  public:
    Chain(const Part& part, const BoundPrices& prices)
        : m_part(&part)
        , m_prices(&prices)
        , m_lattice(&part.m_layers.back()->lattice)
        , m_limits(&part.m_context->problem->limits) {
        const Board& board = part.m_model->board();
        if (m_limits->offcutWorthPercent > 0 && m_limits->offcutLength > 0) {
            m_offcut = static_cast<double>(board.cost) / part.m_model->outlineArea() *
                       m_limits->offcutWorthPercent / 100;
        }
        for (const auto& layer : part.m_layers) {
            m_sections.emplace_back(layer->lattice, layer->rows, layer->strips);
        }
        m_from.resize(part.m_layers.size());
        weighAreas();
        makeRanges();
        m_reach.resize(static_cast<std::size_t>(part.m_lastEnd) + 1);
        m_touch.resize(m_reach.size());
        m_at.resize(m_reach.size());
        m_firstAt.resize(static_cast<std::size_t>(part.m_cells) + 1);
    }

    Cost run(const BoundGoal& goal, const Interrupt& interrupt, std::int64_t& work) {
        for (int looks = 0;;) {
            const Cost worth = findChain();
            work += static_cast<std::int64_t>(m_ranges.size() / 64);
            if (worth <= goal.enough || looks >= goal.looks || interrupt.isCalled()) {
                return worth;
            }
            bool settled = true;
            for (const std::size_t index : m_chain) {
                if (m_ranges[index].looked == 0) {
                    // By as much less the chain would no longer matter.
                    lookInto(index, m_ranges[index].most - (worth - goal.enough), work);
                    ++looks;
                    settled = false;
                }
            }
            if (!settled) {
                continue;
            }
            for (const std::size_t index : m_chain) {
                settled = !halve(index) && settled;
            }
            if (settled) {
                return worth;
            }
        }
    }

    /// The chain that run() ended with.
    void addSections(std::vector<BoundSection>& sections, std::int64_t& work) {
        for (auto r = m_chain.rbegin(); r != m_chain.rend(); ++r) {
            const SectionRange& cells = m_ranges[*r].cells;
            const std::size_t l = layerOf(cells);
            static_cast<void>(look(cells, 0, work));
            sections.push_back(sectionOf(cells, l).first->found(*m_prices, rowsOf(cells, l, work)));
        }
    }

  private:
    /// Most money per area among the kinds that a section of some length can hold.
    void weighAreas() {
        const Problem& problem = *m_part->m_context->problem;
        m_density.assign(static_cast<std::size_t>(m_part->m_lastEnd) + 2, 0);
        for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
            const Kind& kind = problem.kinds[k];
            if (!m_lattice->kind(k).isHere || m_prices->each[k] <= 0) {
                continue;
            }
            double best = 0;
            if (kind.isPool) {
                const std::vector<Cost>& worth = m_prices->byWidth[k];
                for (const std::size_t s : {std::size_t{0}, worth.size() - 1}) {
                    best = std::max(
                        best, static_cast<double>(worth[s]) /
                                  static_cast<double>(kind.width + static_cast<Nm>(s) *
                                                                       std::max<Nm>(1, kind.step)));
                }
            } else {
                best = static_cast<double>(m_prices->each[k]) / static_cast<double>(kind.width);
            }
            best /= static_cast<double>(kind.length);
            const int cells = static_cast<int>(
                (kind.length + m_limits->crosscutKerf - m_lattice->slack().longer()) /
                m_lattice->step().along);
            if (cells < static_cast<int>(m_density.size())) {
                double& here = m_density[static_cast<std::size_t>(cells)];
                here = std::max(here, best + m_offcut);
            }
        }
        for (std::size_t i = 1; i < m_density.size(); ++i) {
            m_density[i] = std::max(m_density[i], m_density[i - 1]);
        }
        m_area.assign(static_cast<std::size_t>(m_part->m_lastEnd) + 2, 0);
        for (std::size_t i = 0; i + 1 < m_area.size(); ++i) {
            const double height =
                i < static_cast<std::size_t>(m_part->m_cells)
                    ? static_cast<double>(m_lattice->heightAt(static_cast<int>(i)))
                    : 0;
            m_area[i + 1] = m_area[i] + height * static_cast<double>(m_lattice->step().along);
        }
    }

    void makeRanges() {
        const int size = m_part->m_rangeCells;
        for (int i = 0; i < m_part->m_cells; i += size) {
            const int lastBegin = std::min(m_part->m_cells - 1, i + size - 1);
            for (int e = 0; e <= m_part->m_lastEnd; e += size) {
                add({i, lastBegin, e, std::min(m_part->m_lastEnd, e + size - 1)}, nothing);
            }
        }
    }

    void add(const SectionRange& cells, Cost known) {
        const int length = cells.lastEnd - cells.firstBegin;
        if (length < m_part->m_shortest) {
            return;
        }
        Range range;
        range.cells = cells;
        // Every end must leave room behind every begin, else the range is worth as much with less.
        const double area = m_area[static_cast<std::size_t>(cells.lastEnd) + 1] -
                            m_area[static_cast<std::size_t>(cells.firstBegin)];
        range.most = static_cast<Cost>(m_density[static_cast<std::size_t>(length)] * area) + 1;
        if (known != nothing) {
            range.most = std::min(range.most, known);
        }
        m_ranges.push_back(range);
    }

    /// Worth of the best chain; m_chain holds its ranges.
    Cost findChain() {
        // Ranges by their last begin: what they stand on must be known by then.
        std::fill(m_firstAt.begin(), m_firstAt.end(), std::size_t{0});
        m_order.resize(m_ranges.size());
        for (const Range& range : m_ranges) {
            ++m_firstAt[static_cast<std::size_t>(range.cells.lastBegin) + 1];
        }
        for (std::size_t i = 1; i < m_firstAt.size(); ++i) {
            m_firstAt[i] += m_firstAt[i - 1];
        }
        std::vector<std::size_t>& next = m_scratch;
        next.assign(m_firstAt.begin(), m_firstAt.end());
        for (std::size_t r = 0; r < m_ranges.size(); ++r) {
            m_order[next[static_cast<std::size_t>(m_ranges[r].cells.lastBegin)]++] = r;
        }
        const BoardModel& model = *m_part->m_model;
        const bool atBegin = m_lattice->begin() == model.size().xBegin;
        const bool atEnd = m_lattice->end() == model.size().xEnd;
        const Cost cut = m_limits->crosscutCost;
        const double keepPerArea = m_offcut;
        const int keepCells = static_cast<int>(m_limits->offcutLength / m_lattice->step().along);
        // reach: a section ends here at the earliest; touch: it may end just here, so that the next
        // one needs no crosscut of its own. At: the best that ends here or before, an offcut behind
        // it counted where it is long enough.
        std::fill(m_reach.begin(), m_reach.end(), Reach{nothing, none});
        std::fill(m_touch.begin(), m_touch.end(), Reach{nothing, none});
        Best best{0, none}; // a section that ends here or before, or none
        double kept = 0;    // the same less the area below it
        std::size_t keptBy = none;
        for (int e = 0; e <= m_part->m_lastEnd; ++e) {
            const auto at = static_cast<std::size_t>(e);
            if (m_reach[at].value > best.value) {
                best = {m_reach[at].value, m_reach[at].by};
            }
            if (keepPerArea > 0) {
                const int from = e - std::max(0, keepCells - 2);
                if (from >= 0) {
                    const Reach& reach = m_reach[static_cast<std::size_t>(from)];
                    const double worth = static_cast<double>(reach.value) -
                                         keepPerArea * m_area[static_cast<std::size_t>(from)];
                    if (reach.value > nothing / 2 && worth > kept) {
                        kept = worth;
                        keptBy = reach.by;
                    }
                    const Cost withOffcut =
                        static_cast<Cost>(kept + keepPerArea * m_area[at + 1]) + 1;
                    if (withOffcut > best.value) {
                        m_at[at] = {withOffcut, keptBy};
                    } else {
                        m_at[at] = best;
                    }
                } else {
                    m_at[at] = best;
                }
            } else {
                m_at[at] = best;
            }
            if (e >= m_part->m_cells) {
                continue;
            }
            for (std::size_t o = m_firstAt[at]; o < m_firstAt[at + 1]; ++o) {
                Range& range = m_ranges[m_order[o]];
                const SectionRange& cells = range.cells;
                if (range.most <= 0) {
                    continue;
                }
                const bool first = atBegin && cells.firstBegin == 0;
                Cost start = m_at[at].value - (first ? 0 : cut);
                std::size_t by = m_at[at].by;
                for (int b = cells.firstBegin; b <= cells.lastBegin; ++b) {
                    const Reach& touching = m_touch[static_cast<std::size_t>(b)];
                    if (touching.value > start) {
                        start = touching.value;
                        by = touching.by;
                    }
                }
                const bool last = atEnd && cells.lastEnd == m_part->m_lastEnd;
                const Cost value = start + range.most - (last ? 0 : cut);
                range.standsOn = by;
                const int end =
                    std::min(m_part->m_lastEnd, std::max(cells.firstEnd, cells.lastBegin + 1));
                const Reach reached{value, m_order[o]};
                const auto improve = [&](Reach& place) {
                    if (reached.value > place.value) {
                        place = reached;
                    }
                };
                improve(m_reach[static_cast<std::size_t>(end)]);
                for (int e1 = end; e1 <= cells.lastEnd; ++e1) {
                    improve(m_touch[static_cast<std::size_t>(e1)]);
                }
            }
        }
        const Best& all = m_at[static_cast<std::size_t>(m_part->m_lastEnd)];
        m_chain.clear();
        for (std::size_t r = all.by; r != none; r = m_ranges[r].standsOn) {
            m_chain.push_back(r);
        }
        return all.value;
    }

    [[nodiscard]] std::size_t layerOf(const SectionRange& cells) const {
        const Layer& layer = m_part->layerFor(cells);
        return &layer == m_part->m_layers.back().get() ? m_part->m_layers.size() - 1 : 0;
    }

    /// Who looks into the range, and the range in the cells of that lattice.
    [[nodiscard]] std::pair<SectionBound*, SectionRange> sectionOf(const SectionRange& cells,
                                                                   std::size_t layer) {
        Group* group = m_part->groupOf(cells);
        if (group == nullptr) {
            return {&m_sections[layer], cells};
        }
        const auto [known, isNew] = m_bySpan.try_emplace(
            group, group->lattice, m_part->m_layers[layer]->rows, group->strips, group->first);
        SectionRange shifted = cells;
        shifted.firstBegin -= group->first;
        shifted.lastBegin -= group->first;
        shifted.firstEnd -= group->first;
        shifted.lastEnd -= group->first;
        return {&known->second, shifted};
    }

    /// Null: no strip of the range can hold two blanks.
    const RowBound::From* rowsOf(const SectionRange& cells, std::size_t layer, std::int64_t& work) {
        if (cells.lastEnd - cells.firstBegin < m_part->m_twoShortest) {
            return nullptr;
        }
        // Few sections come to be looked at cell by cell; the rest shares its rows.
        const int grain = cells.isOne() ? RowBound::coarseCells : mostRangeCells;
        const int anchor = cells.firstBegin / grain * grain;
        auto [known, isNew] = m_from[layer].try_emplace(anchor);
        if (isNew) {
            known->second = m_part->m_layers[layer]->rows.from(anchor, *m_prices, work);
        }
        return &known->second;
    }

    Cost look(const SectionRange& cells, Cost least, std::int64_t& work) {
        const std::size_t l = layerOf(cells);
        work += m_lattice->rows();
        const auto [section, shifted] = sectionOf(cells, l);
        return section->most(shifted, *m_prices, rowsOf(cells, l, work), m_offcut,
                             std::max<Cost>(0, least));
    }

    void lookInto(std::size_t index, Cost least, std::int64_t& work) {
        Range& range = m_ranges[index];
        range.looked = 1;
        range.most = std::min(range.most, look(range.cells, least, work));
    }

    /// Cuts the range in up to four; false when it is a single cell each way.
    bool halve(std::size_t index) {
        const Range range = m_ranges[index];
        const SectionRange& cells = range.cells;
        if (cells.isOne()) {
            return false;
        }
        m_ranges[index].most = 0; // its parts stand for it
        const int begin = (cells.firstBegin + cells.lastBegin) / 2;
        const int end = (cells.firstEnd + cells.lastEnd) / 2;
        for (const bool laterBegin : {false, true}) {
            for (const bool laterEnd : {false, true}) {
                const SectionRange half{
                    laterBegin ? begin + 1 : cells.firstBegin, laterBegin ? cells.lastBegin : begin,
                    laterEnd ? end + 1 : cells.firstEnd, laterEnd ? cells.lastEnd : end};
                if (half.firstBegin <= half.lastBegin && half.firstEnd <= half.lastEnd) {
                    add(half, range.most);
                }
            }
        }
        return true;
    }

    static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
    struct Reach {
        Cost value = nothing;
        std::size_t by = none;
    };
    struct Best {
        Cost value = 0;
        std::size_t by = none;
    };
    struct Range {
        SectionRange cells;
        Cost most = 0;
        int looked = 0;
        std::size_t standsOn = none;
    };

    const Part* m_part;
    const BoundPrices* m_prices;
    const Lattice* m_lattice;
    const Limits* m_limits;
    double m_offcut = 0;                  ///< worth of a square nanometre
    std::vector<SectionBound> m_sections; ///< by layer
    std::map<const Group*, SectionBound> m_bySpan;
    std::vector<std::map<int, RowBound::From>> m_from; ///< by layer and anchor
    std::vector<double> m_density;                     ///< by cells of length
    std::vector<double> m_area;                        ///< up to a cell
    std::vector<Range> m_ranges;
    std::vector<std::size_t> m_order, m_firstAt, m_scratch;
    std::vector<Reach> m_reach, m_touch;
    std::vector<Best> m_at;
    std::vector<std::size_t> m_chain;
};

Cost BoardBound::Part::most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                            std::int64_t& work, std::vector<BoundSection>* chain) const {
    const BoundPrices prices(*m_context->problem, values);
    Chain best(*this, prices);
    const Cost most = best.run(goal, interrupt, work);
    if (chain != nullptr) {
        best.addSections(*chain, work);
    }
    return most;
}

BoardBound::BoardBound(const Context& context, const BoardModel& model) {
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.length().inNanometres() >= context.shortest) {
            m_parts.push_back(std::make_unique<Part>(context, model, stretch));
        }
    }
}

BoardBound::~BoardBound() = default;
BoardBound::BoardBound(BoardBound&&) noexcept = default;
BoardBound& BoardBound::operator=(BoardBound&&) noexcept = default;

Cost BoardBound::most(const Values& values, const BoundGoal& goal, const Interrupt& interrupt,
                      std::int64_t& work, std::vector<BoundSection>* chain) const {
    Cost all = 0;
    for (const auto& part : m_parts) {
        all += part->most(values, goal, interrupt, work, chain);
    }
    return all;
}

} // namespace stavewright::cutting
