#include "core/cutting/CutCost.h"

#include <algorithm>
#include <cmath>

namespace stavewright::cutting {

namespace {

class Counter {
  public:
    Counter(const Context& context, const BoardModel& model, const Pattern& pattern)
        : m_context(context)
        , m_limits(context.problem->limits)
        , m_model(model)
        , m_pattern(pattern) {}

    CutCost count() {
        for (std::size_t i = 0; i < m_pattern.sections.size(); ++i) {
            countSection(i);
        }
        countOffcuts();
        m_cost.total += m_cost.crosscuts * m_limits.crosscutCost + m_cost.rips * m_limits.ripCost -
                        m_cost.offcutsWorth;
        return m_cost;
    }

  private:
    void countSection(std::size_t index) {
        const PlacedSection& section = m_pattern.sections[index];
        const bool joined =
            index > 0 && section.x0 == m_pattern.sections[index - 1].x1 + m_limits.crosscutKerf;
        if (section.x0 != m_model.size().xBegin && !joined) {
            ++m_cost.crosscuts;
        }
        if (section.x1 != m_model.size().xEnd) {
            ++m_cost.crosscuts;
        }
        const SectionShape shape(m_model, section.x0, section.x1);
        const SectionPieces pieces(m_model, shape, m_context.rules);
        for (std::size_t s = 0; s < section.strips.size(); ++s) {
            const PlacedStrip& strip = section.strips[s];
            const bool shared = s > 0 && strip.v0 == section.strips[s - 1].v1 + m_limits.ripKerf;
            m_cost.rips += shared ? 1 : 2;
            for (std::size_t b = 0; b < strip.blanks.size(); ++b) {
                countBlank(section, strip, b, pieces);
            }
        }
    }

    void countBlank(const PlacedSection& section, const PlacedStrip& strip, std::size_t index,
                    const SectionPieces& pieces) {
        const Placed& placed = strip.blanks[index];
        const Nm u0 = placed.rect.x0.inNanometres();
        const Nm u1 = placed.rect.x1.inNanometres();
        const Nm v0 = placed.rect.y0.inNanometres();
        const Nm v1 = placed.rect.y1.inNanometres();
        const bool parallel = section.frame.isParallel();
        const bool joined = index > 0 && u0 == strip.blanks[index - 1].rect.x1.inNanometres() +
                                                   m_limits.stripCrosscutKerf;
        if (!(parallel && u0 == 0) && !joined) {
            ++m_cost.crosscuts;
        }
        if (!(parallel && u1 == section.x1 - section.x0)) {
            ++m_cost.crosscuts;
        }
        m_cost.rips += (v0 != strip.v0 ? 1 : 0) + (v1 != strip.v1 ? 1 : 0);

        const Kind& kind = m_context.problem->kinds[static_cast<std::size_t>(placed.kind)];
        const BlankPose pose{placed.kind, placed.endForEnd, placed.faceOver,
                             posedZones(kind, placed.endForEnd, placed.faceOver)};
        m_obstacles.clear();
        pieces.obstacles(pose, u0, m_obstacles);
        const FillCount fills =
            fillsOf({m_obstacles.data(), m_obstacles.data() + m_obstacles.size()}, v0, v1);
        m_cost.total += fills.cost;
        m_cost.fills += fills.fills;
    }

    /// Worth of a waste rectangle by its share of the board's area.
    void keep(Nm length, Nm width) {
        if (m_limits.offcutWorthPercent <= 0 || m_limits.offcutLength <= 0 ||
            length < m_limits.offcutLength || width < m_limits.offcutWidth) {
            return;
        }
        const double share =
            static_cast<double>(length) * static_cast<double>(width) / m_model.outlineArea();
        m_cost.offcutsWorth +=
            static_cast<Cost>(std::floor(static_cast<double>(m_model.board().cost) * share *
                                         static_cast<double>(m_limits.offcutWorthPercent) / 100));
    }

    void keepAcross(Nm x0, Nm x1) {
        if (x1 - x0 < std::max<Nm>(1, m_limits.offcutLength)) {
            return;
        }
        const double width = m_model.farEdge().lowest(x0, x1) - m_model.nearEdge().highest(x0, x1);
        keep(x1 - x0, static_cast<Nm>(std::floor(width)));
    }

    void countOffcuts() {
        // Between sections, inside the free stretches; beside the strips of a section; behind the
        // blanks of a strip.
        for (const Stretch& stretch : m_model.freeStretches()) {
            Nm from = stretch.from.inNanometres();
            for (const PlacedSection& section : m_pattern.sections) {
                if (section.x0 >= stretch.from.inNanometres() &&
                    section.x1 <= stretch.to.inNanometres()) {
                    keepAcross(from, section.x0 - m_limits.crosscutKerf);
                    from = section.x1 + m_limits.crosscutKerf;
                }
            }
            keepAcross(from, stretch.to.inNanometres());
        }
        for (const PlacedSection& section : m_pattern.sections) {
            const SectionShape shape(m_model, section.x0, section.x1);
            const Nm length = shape.uHigh() - shape.uLow();
            Nm from = 0;
            for (const PlacedStrip& strip : section.strips) {
                keep(length, strip.v0 - m_limits.ripKerf - from);
                from = strip.v1 + m_limits.ripKerf;
                const Nm last = strip.blanks.empty() ? shape.uLow()
                                                     : strip.blanks.back().rect.x1.inNanometres() +
                                                           m_limits.stripCrosscutKerf;
                keep(shape.uHigh() - last, strip.v1 - strip.v0);
            }
            keep(length, shape.clearTop(shape.uLow(), shape.uHigh()) - from);
        }
    }

    const Context& m_context;
    const Limits& m_limits;
    const BoardModel& m_model;
    const Pattern& m_pattern;
    CutCost m_cost;
    std::vector<Obstacle> m_obstacles;
};

} // namespace

CutCost patternCost(const Context& context, const BoardModel& model, const Pattern& pattern) {
    return Counter(context, model, pattern).count();
}

} // namespace stavewright::cutting
