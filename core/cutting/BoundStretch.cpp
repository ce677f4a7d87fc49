#include "core/cutting/BoundStretch.h"

#include <algorithm>
#include <limits>

#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

namespace {

/// Of sections that share a lattice where the edge bends.
constexpr Nm groupLength = 100'000'000;
/// Of the ranges of places that one begins with, in parts of the shortest kind, and at least and at
/// most: in wider ones sections seem to be worth too much, of narrower ones there are too many.
constexpr Nm partsOfShortest = 5;
constexpr Nm narrowestRange = 50'000'000;
constexpr Nm widestRange = 110'000'000;
constexpr Nm widestWhereBent = 75'000'000;
/// Steps along, and how much wood a finer one is allowed to leave out less: it is slower, so that
/// the bounds come less near in the same time. So much divided by the step.
constexpr Nm finestStep = 5'000'000;
constexpr Nm coarsestStep = 9'000'000;
constexpr double lossForStep = 0.02 * 1'000'000;

} // namespace

Nm stepAlong(const Problem& problem) {
    double all = 0; // area of what is wanted
    std::vector<double> areas;
    for (const Kind& kind : problem.kinds) {
        const auto width = static_cast<double>(kind.isPool ? kind.netWanted : kind.width);
        areas.push_back(width * static_cast<double>(kind.length) * kind.demand);
        all += areas.back();
    }
    Nm best = finestStep;
    double least = std::numeric_limits<double>::max();
    for (Nm step = finestStep; step <= coarsestStep; step += 25'000) {
        // The share of the wood that rounding leaves out.
        double lost = 0;
        for (std::size_t k = 0; k < areas.size(); ++k) {
            const Nm taken = problem.kinds[k].length + problem.limits.crosscutKerf;
            lost += areas[k] / all * static_cast<double>(taken % step) / static_cast<double>(taken);
        }
        const double cost = lost + lossForStep / static_cast<double>(step);
        if (cost < least) {
            least = cost;
            best = step;
        }
    }
    return best;
}

BoundStretch::BoundStretch(const Context& context, const BoardModel& model, const Stretch& stretch,
                           const Interrupt* interrupt)
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
    const auto isCalled = [&] { return interrupt != nullptr && interrupt->isCalled(); };
    EdgeSlack whole(model, stretch, all, context.narrowest);
    const Nm longer = whole.longer();
    if (!whole.isNone() && !isCalled()) {
        const Nm most = longest + limits.crosscutKerf + 2 * widestRange;
        if (most < all) {
            m_layers.push_back(
                std::make_unique<Layer>(context, model, stretch, step,
                                        EdgeSlack(model, stretch, most, context.narrowest), most));
        }
    }
    if (isCalled()) {
        return;
    }
    m_layers.push_back(
        std::make_unique<Layer>(context, model, stretch, step, std::move(whole), all));
    const Lattice& lattice = m_layers.back()->lattice;
    m_cells = lattice.cells();
    m_lastEnd = lattice.lastEnd();
    m_usable = usableWood(lattice);
    m_lines = clearLines(lattice, m_usable);
    m_shortest = static_cast<int>((shortest + limits.crosscutKerf - longer) / step.along);
    const Nm range = std::clamp(shortest / partsOfShortest, narrowestRange,
                                lattice.slack().isNone() ? widestRange : widestWhereBent);
    m_rangeCells = std::clamp(static_cast<int>(range / step.along), 1, std::max(1, m_shortest));
    m_twoShortest =
        m_shortest + static_cast<int>((shortest + limits.stripCrosscutKerf - longer) / step.along);
}

std::size_t BoundStretch::layerFor(const SectionRange& range) const {
    std::size_t layer = 0;
    while (layer + 1 < m_layers.size() &&
           range.lastEnd - range.firstBegin + 1 > m_layers[layer]->longestCells) {
        ++layer;
    }
    return layer;
}

BoundStretch::Group* BoundStretch::groupOf(const SectionRange& range) {
    const Lattice& lattice = m_layers.back()->lattice;
    const int groupCells = std::max(1, static_cast<int>(groupLength / lattice.step().along));
    const int begin = range.firstBegin / groupCells;
    const int end = range.firstEnd / groupCells;
    if (lattice.slack().isNone() || range.lastBegin - range.firstBegin >= groupCells / 4 ||
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

} // namespace stavewright::cutting
