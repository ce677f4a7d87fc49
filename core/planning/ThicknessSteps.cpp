#include "core/planning/ThicknessSteps.h"

namespace stavewright::planning {

std::vector<Length> thinnerSteps(const Document& document, const Part& part) {
    constexpr int mostSteps = 4;
    const Length wanted = finishedThickness(document, part, {});
    const Length least = part.leastThickness.value_or(wanted);
    std::vector<Length> steps;
    if (least >= wanted) {
        return steps;
    }
    const Length grid = document.info.units == UnitSystem::Inches ? Length::inches(1, 32)
                                                                  : Length::micrometres(500);
    for (int step = 1; step < mostSteps; ++step) {
        const Length exact = wanted - (wanted - least) * step / mostSteps;
        const Length round = exact - exact % grid;
        if (round > least && round < (steps.empty() ? wanted : steps.back())) {
            steps.push_back(round);
        }
    }
    steps.push_back(least);
    return steps;
}

} // namespace stavewright::planning
