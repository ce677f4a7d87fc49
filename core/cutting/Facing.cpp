#include "core/cutting/Facing.h"

#include <algorithm>
#include <limits>

#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

namespace {

constexpr Nm unlimited = std::numeric_limits<Nm>::max() / 4;

/// Widest strip of [x0, x1] that still reaches `thickness`; -1: not even the narrowest does.
Nm widestReaching(const BoardModel& model, Nm x0, Nm x1, Nm thickness, Nm narrowest) {
    const auto reaches = [&](Nm width) {
        return reachable(model.board(), model.size(), x0, x1, width) >= thickness;
    };
    if (!reaches(narrowest)) {
        return -1;
    }
    Nm low = narrowest;
    Nm high = model.size().widest;
    if (reaches(high)) {
        return unlimited;
    }
    while (high - low > 1000) { // a micrometre is near enough
        const Nm middle = low + (high - low) / 2;
        (reaches(middle) ? low : high) = middle;
    }
    return low;
}

} // namespace

Facing::Facing(const Context& context, const BoardModel& model, const SectionShape& shape)
    : m_whole(context.problem->kinds.size(), false)
    , m_widestRipped(context.problem->kinds.size(), -1) {
    const Limits& limits = context.problem->limits;
    const Nm x0 = shape.x0();
    const Nm x1 = shape.x1();
    if (limits.leastFacedLength > 0 && x1 - x0 < limits.leastFacedLength) {
        return;
    }
    m_mayWhole = limits.jointerWidth == 0 || shape.fullWidth() <= limits.jointerWidth;
    const Nm wholeReach = reachable(model.board(), model.size(), x0, x1, shape.fullWidth());
    for (std::size_t k = 0; k < m_whole.size(); ++k) {
        const Kind& kind = context.problem->kinds[k];
        if (!suits(kind, model.board()) || kind.demand <= 0 ||
            kind.length > shape.uHigh() - shape.uLow() || kind.width > shape.vTop()) {
            continue;
        }
        m_whole[k] = m_mayWhole && wholeReach >= kind.thickness;
        m_widestRipped[k] = widestReaching(model, x0, x1, kind.thickness, kind.width);
        if (limits.jointerWidth > 0) {
            m_widestRipped[k] = std::min(m_widestRipped[k], limits.jointerWidth);
        }
        if (m_widestRipped[k] >= kind.width && !m_whole[k]) {
            m_mayRipped = true;
        }
    }
}

} // namespace stavewright::cutting
