#include "core/cutting/Tighten.h"

#include <algorithm>

#include "core/cutting/Solve.h"

namespace stavewright::cutting {

void strikeOut(PlacedSection& section, const Problem& problem, const Demand& open) {
    std::vector<std::int64_t> left = open.open;
    for (PlacedStrip& strip : section.strips) {
        std::erase_if(strip.blanks, [&](const Placed& placed) {
            const auto k = static_cast<std::size_t>(placed.kind);
            return !problem.kinds[k].isPool && left[k]-- <= 0;
        });
    }
    std::erase_if(section.strips, [](const PlacedStrip& strip) { return strip.blanks.empty(); });
}

void tighten(const Problem& problem, const BoardModel& model, PlacedSection& section) {
    Nm last = 0;
    for (const PlacedStrip& strip : section.strips) {
        for (const Placed& placed : strip.blanks) {
            last = std::max(last, placed.rect.x1.inNanometres());
        }
    }
    const Nm x1 = section.x0 + std::max(last, problem.limits.leastFacedLength);
    if (!section.frame.isParallel() || last == 0 || x1 >= section.x1) {
        return;
    }
    const Frame frame = sectionFrame(model.board(), section.x0, x1);
    if (frame.isParallel() && frame.origin == section.frame.origin) {
        section.x1 = x1;
        section.frame = frame;
    }
}

} // namespace stavewright::cutting
