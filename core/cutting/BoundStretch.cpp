#include "core/cutting/BoundStretch.h"

#include <algorithm>

#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

namespace {

constexpr int groupCells = 32; ///< of sections that share a lattice where the edge bends

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
        const Nm most = longest + limits.crosscutKerf + (2 * mostRangeCells + 2) * step.along;
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
    m_shortest = static_cast<int>((shortest + limits.crosscutKerf - longer) / step.along);
    // Wider ones are too rough where short blanks are wanted, and where the edge bends.
    m_rangeCells = std::clamp(m_shortest, 1, mostRangeCells);
    if (lattice.slack().isNone()) {
        m_rangeCells = std::clamp(m_shortest / 4, m_rangeCells, 2 * mostRangeCells);
    }
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

} // namespace stavewright::cutting
