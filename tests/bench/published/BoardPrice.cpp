#include "BoardPrice.h"

#include "core/cutting/BoardMenu.h"

namespace stavewright::cutting::bench {

std::optional<std::int64_t> bestPrice(const Sheet& sheet, Stages stages, double seconds) {
    const Problem problem = problemOf(sheet, 1, 0, stages);
    Values values;
    for (const Kind& kind : problem.kinds) {
        values.each.push_back(kind.penaltyUnplaced);
        values.perMetre.push_back(0);
    }
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Interrupt interrupt({}, seconds);
    const BoardMenu menu(context, model, Fineness::fine());
    const BoardPricing& pricing = menu;
    std::int64_t work = 0;
    const BoardChoice choice = pricing.best(values, interrupt, work);
    if (interrupt.isCalled()) {
        return std::nullopt;
    }
    return choice.value / valueUnit;
}

} // namespace stavewright::cutting::bench
